#include "voltwright/profile/sections/reading.hpp"

#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/word.hpp"
#include "voltwright/profile/own_runs.hpp"
#include "voltwright/profile/probe_point.hpp"
#include "voltwright/profile/sections/contradictions.hpp"
#include "voltwright/profile/sections/rows.hpp"

namespace voltwright {

using namespace rows;
using namespace contradictions;

namespace {

/// One pole pair or two places, never three.
void two_leads(const std::optional<std::vector<std::string>>& places, const std::string& path, Faults& faults) {
    if (places->empty() || places->size() > 2)
        faults.push_back({path, "a meter has two leads; these are " + std::to_string(places->size()) + " places",
                          "one place for its two poles, or two points: [\"starter +\", \"charger +\"]"});
}

std::span<const Key> reading_rows() {
    const Range any_voltage = between(volts(-30.0), volts(30.0));
    const Range any_current = between(amperes(-2000.0), amperes(2000.0));
    const Range any_time = between(seconds(0.0), hours(1000.0));
    static const Key rows[] = {
        key_with_rule<&ReadingKeys::across, &two_leads>(
            "across", Absent{"through, or a count, is given", R"("battery")"}, {},
            "where the meter's two leads are: two points such as \"charger +\", one place for its two poles, or one "
            "joint for its two ends"),
        key<&ReadingKeys::through>("through", Absent{"across, or a count, is given", R"("fridge")"}, {},
                                   "run whose current the clamp measured"),
        key<&ReadingKeys::with>("with", Absent{"all of them off", R"("fridge")"}, {}, "loads that were on"),
        key<&ReadingKeys::engine>("engine", usual("off"), {}, "what the engine did"),
        key<&ReadingKeys::charger>("charger", usual("on"), {},
                                   "whether the charger was switched on: off shows what stands there without its load"),
        key<&ReadingKeys::voltage>("voltage", Absent{"not read", R"("12.7 V")"}, {any_voltage},
                                   "what the meter showed"),
        key<&ReadingKeys::current>("current", Absent{"not read", R"("3.8 A")"}, {any_current}, "what the clamp showed"),
        key<&ReadingKeys::when>("when", Absent{"not noted", R"("in the morning, before the first drive")"}, {},
                                "when it was read, in your own words"),
        key<&ReadingKeys::counted>("counted", Absent{"not counted"},
                                   {between(ampere_hours(-10000.0), ampere_hours(10000.0))},
                                   "ampere-hours that a battery monitor counted over time"),
        key<&ReadingKeys::time>("time", Absent{"not noted"}, {any_time}, "how long was counted"),
        key<&ReadingKeys::on>("on", Absent{"not noted"}, {any_time},
                              "how long the compressor or load ran in one cycle"),
        key<&ReadingKeys::off>("off", Absent{"not noted"}, {any_time}, "how long it then stood still"),
        key<&ReadingKeys::ran>("ran", Absent{"not noted"}, {any_time},
                               "how long the loads ran from a full battery until they stopped"),
        key<&ReadingKeys::stopped>("stopped", Absent{"not noted", R"("11.1 V")"}, {cut()},
                                   "voltage at which they stopped"),
    };
    return rows;
}

/// What a reading may name.
struct Names {
    std::vector<std::string> places;
    std::string output;  ///< where the run to the house battery begins
    std::vector<std::string> runs, loads;
};

Names names_for_readings(const Profile& profile) {
    Names names{.places = places_of(profile),
                .output = std::string(place_of_charger(profile)) + " output",
                .runs = {},
                .loads = {}};
    std::set<std::string> runs;
    for (std::size_t i = 0; i < profile.runs.size(); ++i) {
        runs.insert(entry_name(profile, *find_section("run"), i));
        const auto& to = profile.runs[i].to;
        if (to && std::find(names.places.begin(), names.places.end(), *to) == names.places.end())
            names.places.push_back(*to);
    }
    // A run that is assumed is called after where it leads.
    runs.insert("battery");
    if (profile.inverter) runs.insert("inverter");
    // Whether the plan has it is known once the runs are.
    for (const OwnRun& own : own_runs) {
        runs.insert(std::string(own.run));
        names.places.emplace_back(own.block);
    }
    const std::set<std::string> loads = names_of_loads(profile);
    runs.insert(loads.begin(), loads.end());
    names.runs.assign(runs.begin(), runs.end());
    names.loads.assign(loads.begin(), loads.end());
    return names;
}

bool is_among(const std::vector<std::string>& names, std::string_view name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

/// What is no place may still be a pole or a joint: those are known once the runs are.
bool may_be_touched(const std::string& name, const Names& names) {
    const std::string_view place = without_pole(name);
    return is_among(names.places, place) || place == names.output ||
           std::any_of(names.runs.begin(), names.runs.end(),
                       [&](const std::string& run) { return name.rfind(run + " ", 0) == 0; });
}

std::string nearest_of(std::string_view name, const std::vector<std::string>& names) {
    return did_you_mean(name, {names.begin(), names.end()});
}

void names_in(const ReadingKeys& reading, std::size_t index, const Names& names, Faults& faults) {
    for (const std::string& name : reading.across.value_or(std::vector<std::string>{}))
        if (!may_be_touched(name, names))
            add(faults, at("reading", index, "across"), "there is no '" + name + "' to measure at",
                nearest_of(name, names.places));
    if (reading.through && !is_among(names.runs, *reading.through))
        add(faults, at("reading", index, "through"), "there is no run '" + *reading.through + "'",
            nearest_of(*reading.through, names.runs));
    for (const std::string& name : reading.with.value_or(std::vector<std::string>{}))
        if (!is_among(names.loads, name))
            add(faults, at("reading", index, "with"), "there is no load '" + name + "'", nearest_of(name, names.loads));
}

void look_through_reading(const WholeProfile& whole, Faults& faults) {
    if (whole.given.readings.empty()) return;
    const Names names = names_for_readings(whole.given);
    for (std::size_t i = 0; i < whole.given.readings.size(); ++i) {
        const ReadingKeys& reading = whole.given.readings[i];
        if (reading.across && reading.through)
            add(faults, at("reading", i, "through"), "a meter is put across two places or through a run, not both");
        if (!reading.across && !reading.through && (reading.voltage || reading.current))
            add(faults, at("reading", i, reading.voltage ? "voltage" : "current"),
                "it is not said where this was measured",
                reading.voltage ? "say across = which two points, or one place" : "say through = which run");
        names_in(reading, i, names, faults);
    }
}

}  // namespace

SectionRow reading_section() {
    SectionRow row =
        list_section<&Profile::readings>("reading", 200, "what was measured, for diagnose", reading_rows());
    row.contradictions = &look_through_reading;
    return row;
}

}  // namespace voltwright

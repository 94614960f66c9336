#include "voltwright/profile/sections/charger.hpp"

#include "voltwright/circuit/place.hpp"
#include "voltwright/profile/formats/cable.hpp"
#include "voltwright/profile/formats/place.hpp"
#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/stud.hpp"
#include "voltwright/profile/formats/word.hpp"
#include "voltwright/profile/sections/contradictions.hpp"
#include "voltwright/profile/sections/rows.hpp"

#include <algorithm>

namespace voltwright {

using namespace rows;
using namespace contradictions;

namespace {

/// Charging voltages.
Range charging() { return between(volts(12.0), volts(16.0)); }

bool is_relay(const ChargerKeys& keys) { return keys.kind == Coupling::relay; }
bool is_none(const ChargerKeys& keys) { return keys.kind == Coupling::none; }

bool names_charger(const Given<std::string>& end) { return end && place_named(*end).kind == PlaceKind::charger; }

/// A run to the battery whose beginning nobody tells comes from the charger, unless a panel's regulator can feed it.
bool asks_for_a_charger(const RunKeys& run, bool panel) {
    const bool to_battery = run.to && place_named(*run.to).kind == PlaceKind::house_battery;
    return names_charger(run.to) || names_charger(run.from) || (to_battery && !run.from && !panel);
}

std::optional<Entry> usual_kind(const Profile& profile, const Tables&, std::size_t) {
    return text_entry(charger_left_out(profile) ? "none" : "dc-dc");
}

/// A voltage that only a relay has.
template <FixedText Usual>
ByRule of_a_relay() {
    static const std::string words = std::string(Usual.view()) + " with a relay";
    return {words, [](const Profile& profile, const Tables&, std::size_t) -> std::optional<Entry> {
                if (!is_relay(profile.charger)) return {};
                return text_entry(Usual.view());
            }};
}

/// A charger for a smart alternator is sold with a signal wire; a relay goes by the voltage that it sees.
std::optional<Entry> usual_wake(const Profile& profile, const Tables&, std::size_t) {
    return text_entry(smart_alternator(profile) && profile.charger.kind == Coupling::dc_dc ? "ignition" : "voltage");
}

std::span<const Key> charger_rows() {
    static const Key rows[] = {
        key<&ChargerKeys::kind>(
            "kind", ByRule{"dc-dc; none where neither a charger nor a run to one is told", &usual_kind}, {},
            "what charges while driving: a DC-DC charger, a relay (voltage-sensing or split-charge) that joins the "
            "batteries, or nothing"),
        asked(key<&ChargerKeys::output>("output",
                                        Required{R"("25 A")",
                                                 [](SectionView section) {
                                                     const auto& keys = section.as<ChargerKeys>();
                                                     return is_relay(keys) || is_none(keys);
                                                 }},
                                        {up_to(amperes(300.0))},
                                        "most current that the charger gives to the battery; a relay has none"),
              "A, printed on the charger"),
        key<&ChargerKeys::efficiency>("efficiency", usual("90 %"), {efficiency()}, "power out over power in"),
        key<&ChargerKeys::input_on>("input_on", by_alternator<"13.2 V", "12.0 V">(), {cut()},
                                    "voltage at its input above which it begins to charge"),
        key<&ChargerKeys::input_off>("input_off", by_alternator<"12.7 V", "11.0 V">(), {cut()},
                                     "voltage at its input below which it stops"),
        key<&ChargerKeys::wake>(
            "wake", ByRule{"voltage, ignition with a smart alternator and a DC-DC charger", &usual_wake}, {},
            "what tells it that the engine runs: the voltage at its input, or a wire from the ignition"),
        key<&ChargerKeys::input_limit>("input_limit", Absent{"it takes what it needs", R"("40 A")"},
                                       {up_to(amperes(500.0))}, "most current that it takes at its input"),
        key<&ChargerKeys::absorption>("absorption", by_chemistry<&ChemistryRow::absorption>(), {charging()},
                                      "voltage that it charges to, at 25 degC"),
        key<&ChargerKeys::float_>("float", by_chemistry<&ChemistryRow::float_>(), {charging()},
                                  "voltage that it holds a full battery at, at 25 degC"),
        key<&ChargerKeys::temperature_sensor>(
            "temperature_sensor", usual(true), {},
            "whether a sensor on the battery corrects its voltage: more in the cold, less in the heat"),
        key<&ChargerKeys::full_output_to>("full_output_to", usual("45 degC"), {between(celsius(0.0), celsius(120.0))},
                                          "surroundings up to which it gives its full output"),
        key<&ChargerKeys::derate>("derate", usual("2.5 %"), {share()},
                                  "output that it loses for each degree above full_output_to"),
        key<&ChargerKeys::off_above>("off_above", usual("65 degC"), {between(celsius(20.0), celsius(150.0))},
                                     "surroundings above which it switches itself off"),
        key<&ChargerKeys::fuse_max>("fuse_max", Absent{"no limit of its own", R"("60 A")"}, {fuse_rating()},
                                    "largest fuse that its manual allows at its input"),
        key<&ChargerKeys::closes_at>("closes_at", of_a_relay<"13.3 V">(), {cut()},
                                     "voltage at which a voltage-sensing relay joins the two batteries"),
        key<&ChargerKeys::opens_at>("opens_at", of_a_relay<"12.8 V">(), {cut()},
                                    "voltage below which such a relay parts them again"),
        key<&ChargerKeys::rating>("rating", Absent{"not known: the plan says what it has to be", R"("140 A")"},
                                  {up_to(amperes(1000.0))}, "current that the relay may carry for long, printed on it"),
        key<&ChargerKeys::terminal>("terminal", Absent{"it takes any size", R"("4 AWG")"}, {},
                                    "largest cable that its terminals take"),
        key<&ChargerKeys::stud>(
            "stud", Absent{"not known: a lug for your stud, to be looked at"}, {stud_diameter()},
            "stud of its terminals, for the lugs: its thread or its diameter; clamped ones have none"),
        key<&ChargerKeys::where>("where", usual("canopy"), {surroundings()},
                                 "where the charger stands: a place or a temperature"),
    };
    return rows;
}

/// What a relay does not have: nothing in it makes a voltage or holds a current back.
void keys_of_a_charger(const WholeProfile& whole, Faults& faults) {
    const ChargerKeys& given = whole.given.charger;
    const auto refuse = [&](const auto& value, std::string_view name, std::string_view why) {
        if (value)
            add(faults, "charger." + std::string(name),
                "a relay has no `" + std::string(name) + "`: " + std::string(why),
                "take it out, or take kind = \"dc-dc\"");
    };
    constexpr std::string_view current = "what flows follows from the volts of alternator and battery";
    constexpr std::string_view voltage = "the battery gets what the alternator leaves it";
    constexpr std::string_view window = "closes_at and opens_at say when it joins the batteries";
    constexpr std::string_view heat = "it gives nothing that heat could lessen";
    refuse(given.output, "output", current);
    refuse(given.efficiency, "efficiency", current);
    refuse(given.input_on, "input_on", window);
    refuse(given.input_off, "input_off", window);
    refuse(given.input_limit, "input_limit", current);
    // A panel's regulator goes by them.
    if (!whole.given.solar) {
        refuse(given.absorption, "absorption", voltage);
        refuse(given.float_, "float", voltage);
        refuse(given.temperature_sensor, "temperature_sensor", voltage);
    }
    refuse(given.full_output_to, "full_output_to", heat);
    refuse(given.derate, "derate", heat);
    refuse(given.off_above, "off_above", heat);
    refuse(given.fuse_max, "fuse_max", "the fuses on both sides protect its cables");
    if (given.wake != Wake::ignition) return;
    const auto unsensed = [&](const auto& value, std::string_view name) {
        if (value)
            add(faults, "charger." + std::string(name), "a relay that the ignition works does not go by the voltage",
                "take it out, or take wake = \"voltage\"");
    };
    unsensed(given.closes_at, "closes_at");
    unsensed(given.opens_at, "opens_at");
}

/// Where nothing charges while driving, [charger] says no more than that, and what a panel's regulator charges to.
void keys_of_none(const WholeProfile& whole, Faults& faults) {
    const ChargerKeys& given = whole.given.charger;
    for (const Key& key : charger_rows()) {
        const SectionView section = SectionView::of(given);
        const bool regulators = key.name == "absorption" || key.name == "float" || key.name == "temperature_sensor";
        if (key.name == "kind" || !key.given(section) || (regulators && whole.given.solar)) continue;
        add(faults, "charger." + std::string(key.name),
            "[charger] says that there is none, and none has no `" + std::string(key.name) + "`",
            "take it out, or take kind = \"dc-dc\"");
    }
}

/// What only a relay has.
void keys_of_a_relay(const ChargerKeys& given, Faults& faults) {
    const auto refuse = [&](const auto& value, std::string_view name) {
        if (value)
            add(faults, "charger." + std::string(name), "a DC-DC charger has no `" + std::string(name) + "`",
                "take it out, or take kind = \"relay\"");
    };
    refuse(given.closes_at, "closes_at");
    refuse(given.opens_at, "opens_at");
    refuse(given.rating, "rating");
}

void look_through_charger(const WholeProfile& whole, Faults& faults) {
    const ChargerKeys& given = whole.given.charger;
    if (is_none(given)) return keys_of_none(whole, faults);
    if (is_relay(given))
        keys_of_a_charger(whole, faults);
    else
        keys_of_a_relay(given, faults);
    place_of_table(given.where, "charger.where", whole.tables, faults);
    // One of a pair alone is held against the other's default.
    const ChargerKeys& keys = whole.complete.charger;
    not_above(keys.input_off, keys.input_on, given.input_off ? "charger.input_off" : "charger.input_on", "input_off",
              "input_on", faults, false);
    not_above(keys.opens_at, keys.closes_at, given.opens_at ? "charger.opens_at" : "charger.closes_at", "opens_at",
              "closes_at", faults, false);
    not_above(keys.float_, keys.absorption, given.float_ ? "charger.float" : "charger.absorption", "the float voltage",
              "the absorption voltage", faults);
    not_above(keys.full_output_to, keys.off_above,
              given.full_output_to ? "charger.full_output_to" : "charger.off_above", "full_output_to", "off_above",
              faults);
    if (given.terminal) size_of_table(*given.terminal, "charger.terminal", whole.tables, faults);
}

}  // namespace

bool charger_left_out(const Profile& given) {
    const SectionView section = SectionView::of(given.charger);
    const bool panel = given.solar.has_value();
    return (panel || !given.runs.empty()) &&
           std::none_of(charger_rows().begin(), charger_rows().end(),
                        [&](const Key& key) { return key.given(section); }) &&
           std::none_of(given.runs.begin(), given.runs.end(),
                        [&](const RunKeys& run) { return asks_for_a_charger(run, panel); });
}

SectionRow charger_section() {
    SectionRow row = one_section<&Profile::charger>(
        "charger", "the DC-DC charger between the two batteries, the relay, or that there is neither", charger_rows());
    row.left_out = &charger_left_out;
    row.contradictions = &look_through_charger;
    return row;
}

}  // namespace voltwright

#include "voltwright/profile/sections/run_ends.hpp"

#include "voltwright/circuit/place.hpp"
#include "voltwright/profile/sections/contradictions.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

using namespace contradictions;

namespace {

/// The runs of a profile by the names of their ends.
struct Ends {
    const Profile& profile;
    std::vector<std::string> from;   ///< of each run, as completed
    std::set<std::string> loads;     ///< by name
    std::vector<std::string> known;  ///< where runs may lead to and begin
};

bool is_known(const Ends& ends, const std::string& name) {
    return std::find(ends.known.begin(), ends.known.end(), name) != ends.known.end();
}

Ends ends_of(const WholeProfile& whole) {
    Ends ends{whole.given, {}, names_of_loads(whole.given), places_of(whole.given)};
    for (const RunKeys& run : whole.complete.runs) ends.from.push_back(*run.from);
    std::set<std::string> begins, reached;
    for (std::size_t i = 0; i < whole.given.runs.size(); ++i) {
        if (!whole.given.runs[i].to) continue;
        begins.insert(ends.from[i]);
        reached.insert(*whole.given.runs[i].to);
    }
    // A name that runs share is a place of its own: a fuse block.
    for (const std::string& name : reached)
        if (begins.count(name) && !is_known(ends, name)) ends.known.push_back(name);
    return ends;
}

bool names_source(const std::string& name) { return is_source(place_named(name)); }

bool names(const std::string& name, PlaceKind kind) { return place_named(name).kind == kind; }

/// Where the way back from the near end of a run leads: a source, or a place that no run leads to.
struct WayBack {
    std::string place;
    bool in_a_circle = false;
};

WayBack way_back(const Ends& ends, std::size_t index) {
    const auto& runs = ends.profile.runs;
    WayBack way{ends.from[index]};
    for (std::size_t steps = 0; !names_source(way.place); ++steps) {
        if (steps > runs.size()) return {way.place, true};
        const auto feeding =
            std::find_if(runs.begin(), runs.end(), [&](const RunKeys& run) { return run.to == way.place; });
        if (feeding == runs.end()) return way;
        way.place = ends.from[static_cast<std::size_t>(feeding - runs.begin())];
    }
    return way;
}

// ---- two runs to one place ------------------------------------------------------------------------------------------

/// The charger and the regulator may both lead to the battery; two runs from one of them may not.
bool second_to_battery(const Ends& ends, std::size_t index) {
    const std::string& from = ends.from[index];
    for (std::size_t i = 0; i < index; ++i)
        if (ends.profile.runs[i].to && names(*ends.profile.runs[i].to, PlaceKind::house_battery) &&
            (ends.from[i] == from || !(names(from, PlaceKind::regulator) || names(ends.from[i], PlaceKind::regulator))))
            return true;
    return false;
}

Fault second_run(const Ends& ends, std::size_t index) {
    const std::string& to = *ends.profile.runs[index].to;
    bool parallel = false;
    for (std::size_t i = 0; i < index; ++i)
        parallel = parallel || (ends.profile.runs[i].to == to && ends.from[i] == ends.from[index]);
    if (parallel)
        return {at("run", index, "to"),
                "parallel cables to '" + to + "' are not planned: when one joint goes bad the other carries it all",
                "take this run out; one thicker cable does it"};
    return {at("run", index, "to"), "two runs lead to '" + to + "': that is a loop", "each place is fed by one run"};
}

// ---- one run --------------------------------------------------------------------------------------------------------

bool hangs_on_the_inverter(const Ends& ends, const std::string& name) {
    const auto& loads = ends.profile.loads;
    return std::any_of(loads.begin(), loads.end(),
                       [&](const LoadKeys& load) { return load.name == name && load.through; });
}

std::string nearest_known(const Ends& ends, const std::string& name) {
    return did_you_mean(name, {ends.known.begin(), ends.known.end()});
}

/// What stands between the batteries by the name of the other thing that can stand there.
std::optional<Fault> other_coupling(const Ends& ends, const std::string& name, const std::string& path,
                                    std::string_view key) {
    const std::string place(place_of_charger(ends.profile));
    if (!names(name, PlaceKind::charger)) return {};
    if (ends.profile.charger.kind == Coupling::none)
        return Fault{path, "[charger] says that there is none", "take the run out, or take kind = \"dc-dc\""};
    if (name == place) return {};
    if (place == "relay") return Fault{path, "[charger] says that it is a relay", std::string(key) + " = \"relay\""};
    return Fault{path, "[charger] says nothing of a relay",
                 std::string(key) + " = \"charger\", or kind = \"relay\" in [charger]"};
}

/// What is wrong with where a run leads. `reached`: where the runs before it lead.
std::optional<Fault> wrong_far_end(const Ends& ends, std::size_t index, std::set<std::string>& reached) {
    const std::string& to = *ends.profile.runs[index].to;
    const std::string path = at("run", index, "to");
    if (names(to, PlaceKind::inverter) && !ends.profile.inverter)
        return Fault{path, "the profile has no [inverter]", "describe it: [inverter] with its output"};
    if (auto fault = other_coupling(ends, to, path, "to")) return fault;
    if (!is_known(ends, to))
        return Fault{path, "there is no '" + to + "' for this run to lead to", nearest_known(ends, to)};
    if (!ends.profile.runs[index].from && names(ends.from[index], PlaceKind::charger) &&
        !charges_while_driving(ends.profile))
        return Fault{path, "nothing charges the battery by this run: [charger] says that there is none",
                     "take it out, or describe a charger"};
    if (to == ends.from[index]) return Fault{path, "this run leads from '" + to + "' to itself", {}};
    if (names(to, PlaceKind::panel)) return Fault{path, "runs begin at the panel", "from = \"panel\""};
    if (names(to, PlaceKind::starter_battery))
        return Fault{path, "the starter battery is where runs begin", "from = \"starter\", and to the other end"};
    if (hangs_on_the_inverter(ends, to))
        return Fault{path, "'" + to + "' hangs on the inverter: no 12 V run leads to it",
                     "a run to = \"inverter\" feeds it"};
    const bool again = !reached.insert(to).second;
    if (names(to, PlaceKind::house_battery) ? second_to_battery(ends, index) : again) return second_run(ends, index);
    return {};
}

/// What is wrong with a run that leads away from a panel, or to where a panel's current goes. `source`: where its way begins.
std::optional<Fault> wrong_sun(const Ends& ends, std::size_t index, const std::string& source) {
    const std::string& to = *ends.profile.runs[index].to;
    const std::string& from = ends.from[index];
    const std::string path = at("run", index, "from");
    const bool by_panel = names(source, PlaceKind::panel);
    if (names(to, PlaceKind::regulator) && !by_panel)
        return Fault{
            path, "the regulator is fed by its panel, not from '" + from + "'",
            names(from, PlaceKind::house_battery) ? "from = \"regulator\" and to = \"battery\"" : "from = \"panel\""};
    const bool shared = names(to, PlaceKind::junction) && !ends.loads.count(to);
    if (by_panel && !names(to, PlaceKind::regulator) && !shared)
        return Fault{at("run", index, "to"), "a panel leads to its regulator, not to '" + to + "'",
                     "to = \"regulator\", and a run from the regulator to the battery"};
    if (names(to, PlaceKind::house_battery) && names(source, PlaceKind::regulator) &&
        !names(from, PlaceKind::regulator))
        return Fault{path, "the regulator's cable leads straight to the battery here; it is not shared",
                     "from = \"regulator\""};
    return {};
}

/// What is wrong with a run whose two ends are places of the vehicle.
std::optional<Fault> wrong_source(const Ends& ends, std::size_t index) {
    const std::string& to = *ends.profile.runs[index].to;
    const std::string& from = ends.from[index];
    const std::string path = at("run", index, "from");
    if (ends.loads.count(from) || names(from, PlaceKind::inverter))
        return Fault{path, "'" + from + "' takes current; no run begins at it",
                     "runs begin at the starter, the charger, the battery, or a place that runs share"};
    const std::string source = way_back(ends, index).place;
    if (auto fault = wrong_sun(ends, index, source)) return fault;
    const bool by_starter = names(source, PlaceKind::starter_battery);
    const std::string between(place_of_charger(ends.profile));
    if (names(to, PlaceKind::charger) && between == "relay" && by_starter && !names(from, PlaceKind::starter_battery))
        return Fault{path, "a relay's link shares its way with nothing: both batteries feed it",
                     "from = \"starter\", and a run of its own for what else hangs on '" + from + "'"};
    if (names(to, PlaceKind::charger) && !by_starter)
        return Fault{ends.profile.runs[index].from ? path : at("run", index, "to"),
                     "the " + between + " is fed from '" + from + "': it would draw on the battery that it charges",
                     "from = \"starter\""};
    if (names(to, PlaceKind::house_battery) && by_starter)
        return Fault{path,
                     "this run joins the two batteries without the " + between +
                         ": what they push through it is not known, and it is not sized here",
                     "from = \"" + between + "\", and a run from the starter to the " + between};
    if (names(from, PlaceKind::charger) && between == "relay" && !names(to, PlaceKind::house_battery))
        return Fault{path, "'" + to + "' hangs on a relay's link: both batteries would feed it", "from = \"battery\""};
    if (names(from, PlaceKind::charger) && !names(to, PlaceKind::house_battery))
        return Fault{path,
                     "'" + to +
                         "' hangs on the charger's output: with the engine off its current comes from the battery "
                         "through the charger's cable",
                     "from = \"battery\""};
    return {};
}

/// Both ends of one run; true when nothing is wrong with them.
bool look_at_ends(const Ends& ends, std::size_t index, std::set<std::string>& reached, Faults& faults) {
    const auto& from = ends.profile.runs[index].from;
    const std::size_t before = faults.size();
    if (auto fault = wrong_far_end(ends, index, reached)) faults.push_back(*std::move(fault));
    auto other = from ? other_coupling(ends, *from, at("run", index, "from"), "from") : std::nullopt;
    if (other)
        faults.push_back(*std::move(other));
    else if (from && !is_known(ends, *from))
        add(faults, at("run", index, "from"), "there is no '" + *from + "' for this run to begin at",
            nearest_known(ends, *from));
    if (faults.size() == before)
        if (auto fault = wrong_source(ends, index)) faults.push_back(*std::move(fault));
    return faults.size() == before;
}

/// A run that does not go back to a source.
std::optional<Fault> without_source(const Ends& ends, std::size_t index) {
    const WayBack way = way_back(ends, index);
    if (names_source(way.place)) return {};
    const std::string hint = "runs begin at the starter, the charger or the battery";
    if (way.in_a_circle)
        return Fault{at("run", index, "to"),
                     "the way back from '" + *ends.profile.runs[index].to + "' goes in a circle: that is a loop", hint};
    if (!ends.loads.count(way.place))
        return Fault{at("run", index, "from"), "no run leads to '" + way.place + "', so nothing feeds this one", hint};
    return Fault{at("run", index, "from"), "'" + way.place + "' is a load, and nothing is fed from it", hint};
}

}  // namespace

bool look_at_ends_of_runs(const WholeProfile& whole, Faults& faults) {
    const Ends ends = ends_of(whole);
    const auto& runs = whole.given.runs;
    std::vector<bool> sound(runs.size(), true);
    std::set<std::string> reached;
    for (std::size_t i = 0; i < runs.size(); ++i)
        if (runs[i].to) sound[i] = look_at_ends(ends, i, reached, faults);
    for (std::size_t i = 0; i < runs.size(); ++i) {
        if (!runs[i].to || !sound[i]) continue;
        auto fault = without_source(ends, i);
        if (!fault) continue;
        const bool circle = fault->path.ends_with(".to");
        faults.push_back(*std::move(fault));
        if (circle) break;  // every run of the circle would say the same
    }
    return std::find(sound.begin(), sound.end(), false) == sound.end();
}

}  // namespace voltwright

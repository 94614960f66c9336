#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/planning/findings/system_concerns.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

using Kind = FindingSubject::Kind;

/// The run that leads to the relay; nullptr where there is none, or nothing is known of it.
const RunPlan* feed_of(const SystemContext& of) {
    if (!of.system.relay) return nullptr;
    const auto found = std::find_if(of.runs.begin(), of.runs.end(), [](const RunPlan& run) { return run.link; });
    return found == of.runs.end() ? nullptr : &*found;
}

bool goes_by_voltage(const System& system) { return system.charger.wake == Wake::voltage; }

bool anybody_drives(const TripPlan& trip) {
    return !trip.drives.empty() || std::any_of(trip.special.begin(), trip.special.end(), [](const SpecialDay& day) {
        return day.drives && !day.drives->empty();
    });
}

Finding about_relay(Level level, FindingCode code, Source source) {
    return {.level = level, .code = code, .about = {Kind::relay}, .source = source, .concern = Concern::trip};
}

/// By a wire from the ignition it closes whatever the voltage.
Remedy wire_from_the_ignition(const System& system) {
    Remedy remedy{{{RemedyCode::relay_by_ignition, {}}}, {}};
    if (!system.relay->voltages_given) remedy.changes = {{"charger.wake", "ignition"}};
    return remedy;
}

Remedy charger_instead() { return {{{RemedyCode::charger_instead, {}}}, {}}; }

/// With the engine running as usual it stays open, or opens as soon as current flows.
void find_open_relay(const SystemContext& of, const LinkFlow& flow, Findings& found) {
    const System& system = of.system;
    if (!goes_by_voltage(system) || !anybody_drives(system.trip)) return;
    const Voltage running = system.starter.running;
    const RelayCoupling& relay = *system.relay;
    if (running < relay.closes_at) {
        Finding one = about_relay(Level::stop, FindingCode::relay_never_closes, sources::input_window);
        one.found = running;
        one.allowed = relay.closes_at;
        one.remedy = wire_from_the_ignition(system);
        return found.push_back(std::move(one));
    }
    const Candidate* taken = feed_of(of)->taken();
    const Voltage left = flow.usual.source - taken->resistance().loop * flow.usual.current;
    if (left < relay.opens_at) {
        Finding one = about_relay(Level::stop, FindingCode::relay_hunts, sources::input_window);
        one.found = left;
        one.allowed = relay.opens_at;
        found.push_back(std::move(one));
    }
}

/// The loads of the house battery then draw on the starter battery too.
void find_relay_that_stays_closed(const SystemContext& of, Findings& found) {
    const ChemistryRow& starter = *find_chemistry(of.tables, "flooded");
    if (!goes_by_voltage(of.system) || of.system.relay->opens_at > starter.full) return;
    Finding one = about_relay(Level::stop, FindingCode::relay_stays_closed, starter.source);
    one.concern = Concern::engine_off;
    one.found = starter.full;
    one.allowed = of.system.relay->opens_at;
    found.push_back(std::move(one));
}

/// What the engine's computer takes from the alternator's volts the battery goes without.
void find_smart_alternator(const SystemContext& of, Findings& found) {
    const StarterBattery& starter = of.system.starter;
    if (starter.alternator != Alternator::smart || (goes_by_voltage(of.system) && !closes(of.system))) return;
    Finding one = about_relay(Level::warn, FindingCode::relay_smart, sources::practice);
    one.found = starter.running;
    one.allowed = starter.lowest_running;
    one.remedy = charger_instead();
    found.push_back(std::move(one));
}

/// The alternator's voltage, less what is lost on the way, is all that the battery gets.
void find_voltage_of_the_link(const SystemContext& of, Findings& found) {
    const ChemistryRow& chemistry = *of.system.house.chemistry;
    const Voltage running = of.system.starter.running;
    const bool high = running > chemistry.absorption_high;
    if (!closes(of.system) || (!high && !(running < chemistry.absorption_low))) return;
    Finding one =
        about_relay(high ? Level::stop : Level::warn,
                    high ? FindingCode::charge_voltage_high : FindingCode::charge_voltage_low, chemistry.source);
    one.found = running;
    one.allowed = high ? chemistry.absorption_high : chemistry.absorption_low;
    one.arguments = {{"chemistry", std::string(chemistry.chemistry)}};
    one.remedy = charger_instead();
    found.push_back(std::move(one));
}

/// Lithium sets next to nothing against a current.
void find_rush(const SystemContext& of, const LinkFlow& flow, Findings& found) {
    const BatteryBank& house = of.system.house;
    if (!house.chemistry->charge_above || !closes(of.system) || !(flow.charge.current > house.charge_limit)) return;
    found.push_back({.level = Level::stop,
                     .code = FindingCode::relay_rush,
                     .about = {Kind::house_battery},
                     .found = flow.charge.current,
                     .allowed = house.charge_limit,
                     .remedy = {{{RemedyCode::charger_of_at_most, {{"at_most", house.charge_limit}}}}, {}},
                     .source = house.chemistry->source,
                     .concern = Concern::trip});
}

/// An alternator that is asked for more than it can spare runs hot, and its voltage falls.
void find_alternator(const SystemContext& of, const LinkFlow& flow, Findings& found) {
    const auto& spare = of.system.starter.spare_current;
    if (!closes(of.system) || !spare) return;
    LinkEnds unlimited = link_ends(of.system, of.tables);
    unlimited.spare.reset();
    const Current asked = link_flow(unlimited, {flow.charge.loop, flow.usual.loop}).charge.current;
    if (!(asked > *spare)) return;
    found.push_back({.level = Level::warn,
                     .code = FindingCode::relay_spare,
                     .about = {Kind::starter_battery},
                     .found = asked,
                     .allowed = *spare,
                     .remedy = {{{RemedyCode::charger_of_at_most, {{"at_most", *spare}}}}, {}},
                     .source = sources::spare_current,
                     .concern = Concern::trip});
}

void find_cranking(const SystemContext& of, const LinkFlow& flow, Findings& found) {
    if (!goes_by_voltage(of.system) || !closes(of.system)) return;
    found.push_back({.level = Level::note,
                     .code = FindingCode::relay_cranks,
                     .about = {Kind::relay},
                     .found = flow.cranking,
                     .source = sources::practice});
}

/// A fuse feeds a fault in the other run too.
void find_fuse_of_the_other(const RunPlan& run, const RunPlan& other, Findings& found) {
    const Candidate *taken = run.to_lay(), *behind = other.to_lay();
    if (!taken || !behind || behind->fuses.empty() || !taken->ampacity) return;
    const FuseFit& fuse = behind->fuses.front();
    if (fuse.rating <= taken->ampacity->current) return;
    found.push_back({.level = Level::stop,
                     .code = FindingCode::relay_fuse,
                     .about = {Kind::run, {*run.task.run.name}},
                     .found = fuse.rating,
                     .allowed = taken->ampacity->current,
                     .arguments = {{"fuse", NamedFuse{fuse.rating, fuse.family, fuse.at}}},
                     .source = sources::fuse_protects});
}

}  // namespace

void find_in_relay(const SystemContext& of, Findings& found) {
    const RunPlan* feed = feed_of(of);
    if (!feed) return;
    const LinkFlow& flow = *feed->link;
    find_open_relay(of, flow, found);
    find_relay_that_stays_closed(of, found);
    find_smart_alternator(of, found);
    find_voltage_of_the_link(of, found);
    find_rush(of, flow, found);
    find_alternator(of, flow, found);
    find_cranking(of, flow, found);
    for (const RunPlan& run : of.runs)
        for (const RunPlan& other : of.runs)
            if (run.link && other.link && &run != &other) find_fuse_of_the_other(run, other, found);
}

}  // namespace voltwright

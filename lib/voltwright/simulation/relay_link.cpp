#include "voltwright/simulation/relay_link.hpp"

#include "voltwright/energy/house_battery.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// Below this no starter turns an engine: data/practice/voltages.toml.
const Voltage least_while_cranking = in_practice(PracticeVoltage::least_while_cranking);

/// The house battery, as stiff as this.
HouseBattery house_of(const BatteryBank& bank, Resistance inside, const Tables& tables) {
    InternalResistance internal = bank.internal;
    internal.expected = inside;
    return house_battery(*bank.chemistry, bank.capacity, bank.count, bank.health, internal, tables);
}

LinkedBattery at_depth_limit(const HouseBattery& battery, Ratio depth_limit) {
    const KineticState rested = battery.at(1.0 - depth_limit);
    const BatteryLevel level = level_of(battery, level_of_charge(battery, rested));
    return {level.open, level.taking, level.giving};
}

bool is_on(const SystemRun& run, int minute) {
    return run.hours.empty() || std::any_of(run.hours.begin(), run.hours.end(),
                                            [minute](const ClockWindow& window) { return window.holds(minute); });
}

Current drawn_at(const System& system, int minute) {
    Current sum{};
    for (const SystemRun& run : system.runs)
        if (run.from.kind == PlaceKind::house_battery && run.role != RunRole::solar && is_on(run, minute))
            sum += design_current(run.load).current;
    return sum;
}

Current most_drawn(const System& system) {
    Current most = drawn_at(system, 0);
    for (const SystemRun& run : system.runs)
        for (const ClockWindow& window : run.hours) most = std::max(most, drawn_at(system, window.from.minutes % 1440));
    for (const LoadUnit& load : system.loads)
        if (std::find(system.unfed.begin(), system.unfed.end(), load.name) != system.unfed.end())
            most += current_at(load.draw, nominal_voltage);
    return most;
}

}  // namespace

LinkEnds link_ends(const System& system, const Tables& tables) {
    const BatteryBank& bank = system.house;
    const HouseBattery expected = house_of(bank, bank.internal.expected, tables);
    const HouseBattery stiffest = house_of(bank, bank.internal.low, tables);
    return {.source = system.starter.running,
            .spare = system.starter.spare_current,
            .expected = at_depth_limit(expected, bank.depth_limit),
            .stiffest = at_depth_limit(stiffest, bank.depth_limit),
            .charge_limit = bank.charge_limit,
            .full = bank.chemistry->full,
            .least = bank.internal.low,
            .loads = most_drawn(system)};
}

LinkFlow link_flow(const LinkEnds& ends, const LinkLoops& loops) {
    return {.usual = link_current(ends.source, loops.warm, ends.expected, Current{}, ends.spare),
            .charge = link_current(ends.source, loops.cold, ends.stiffest, Current{}, ends.spare),
            .worst = link_current(ends.source, loops.cold, ends.stiffest, ends.loads, ends.spare),
            .cranking = (ends.full - least_while_cranking) / (loops.cold + ends.least)};
}

Current judged_current(const LinkEnds& ends) {
    const Current taken = link_current(ends.source, Resistance{}, ends.expected, Current{}, ends.spare).current;
    return std::min(taken, ends.charge_limit);
}

bool closes(const System& system) {
    return system.relay && (system.charger.wake == Wake::ignition || system.starter.running >= system.relay->closes_at);
}

}  // namespace voltwright

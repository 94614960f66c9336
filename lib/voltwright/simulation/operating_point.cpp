#include "voltwright/simulation/operating_point.hpp"

#include <algorithm>

namespace voltwright {

Current drawn_by(const Consumer& consumer, Voltage battery) {
    return LoadThroughCable(consumer.draw, consumer.path).at(battery).current;
}

namespace {

/// The iterate is kept within these, so that a point at a level that is only extrapolated cannot diverge.
constexpr Voltage lowest_terminals = volts(6.0), highest_terminals = volts(20.0);
/// The error allowed of an operating point.
constexpr Voltage allowed_error = volts(1e-6);

/// The error of Newton's method after a step is at most |f''/(2·f')|·step²; here |f''| is at most R·I/V² and f' at least 1.
bool settles(Voltage step, Voltage across, Voltage terminals) {
    return step * step * across < allowed_error * terminals * terminals;
}

LoadCurrent all_loads(const Connections& connections, Voltage battery) {
    LoadCurrent sum{};
    for (const RunningLoad& running : connections.running) {
        const LoadCurrent draw = running.load.at(battery);
        sum.current += draw.current;
        sum.slope += draw.slope;
    }
    return sum;
}

OperatingPoint point(const HouseBattery& battery, const BatteryLevel& level, Current into, Current source,
                     Voltage terminals) {
    const Current kept = into > Current{} ? stored(battery, level.level, into) : into;
    return {kept - battery.self_discharge, into, source, terminals, level.giving};
}

/// What feeds.
struct Feed {
    Current charger{};
    Power sun{};
};

/// A battery that is given no more than it bears: charger and panel carry the loads beside that.
OperatingPoint held_back(const Connections& connections, const HouseBattery& battery, const BatteryLevel& level,
                         Current limit) {
    const Voltage terminals = level.open + limit * connections.taking(level);
    return point(battery, level, limit, limit + all_loads(connections, terminals).current, terminals);
}

/// V = V_open + R·(charger + P_sun/V − loads(V))
OperatingPoint solve_constant_current(const Connections& connections, const Feed& feed, const HouseBattery& battery,
                                      const BatteryLevel& level, Voltage near) {
    Voltage terminals = near;
    Current into{}, source{};
    const bool shines = feed.sun > Power{};
    for (int round = 0; round < 12; ++round) {
        const LoadCurrent loads = all_loads(connections, terminals);
        source = feed.charger;
        Conductance less_sun{};
        if (shines) {
            const Current sun = feed.sun / terminals;
            less_sun = sun / terminals;
            source += sun;
        }
        into = source - loads.current;
        const bool takes = into > Current{};
        const Resistance inside = takes ? connections.taking(level) : level.giving;
        const double slope = 1.0 + inside * (loads.slope + less_sun);
        const Voltage next = std::clamp(terminals - (terminals - level.open - into * inside) / std::max(slope, 0.2),
                                        lowest_terminals, highest_terminals);
        const Voltage step = next - terminals;
        terminals = next;
        source -= less_sun * step;
        into -= (less_sun + loads.slope) * step;
        if (settles(step, inside * (loads.current + source), terminals) && takes == (into > Current{})) break;
    }
    if (connections.charge_limit && into > *connections.charge_limit)
        return held_back(connections, battery, level, *connections.charge_limit);
    return point(battery, level, into, source, terminals);
}

/// V = target − R_cable·(loads(V) + (V − V_open)/R)
OperatingPoint solve_constant_voltage(const Connections& connections, const HouseBattery& battery,
                                      const BatteryLevel& level, Voltage near) {
    const Resistance cable = connections.charger > Current{} ? connections.output_path : Resistance{};
    Voltage terminals = near;
    Current loads{}, into{};
    for (int round = 0; round < 12; ++round) {
        const LoadCurrent drawn = all_loads(connections, terminals);
        const Current sun = beside_link(connections, terminals);
        const bool takes = terminals > level.open;
        const Conductance inside = 1.0 / (takes ? connections.taking(level) : level.giving);
        into = (terminals - level.open) * inside;
        const Voltage off = terminals - connections.target + cable * (drawn.current + into - sun);
        const Voltage next = std::clamp(terminals - off / (1.0 + cable * (drawn.slope + inside + sun / terminals)),
                                        lowest_terminals, highest_terminals);
        const Voltage step = next - terminals;
        terminals = next;
        loads = drawn.current + drawn.slope * step;
        into += inside * step;
        if (settles(step, cable * loads, terminals) && takes == (terminals > level.open)) break;
    }
    if (into + loads < Current{}) {
        // A battery above the target: the charger gives nothing, and takes nothing back.
        return solve_constant_current(connections, {}, battery, level, level.open);
    }
    return point(battery, level, into, into + loads, terminals);
}

/// A battery that takes no charge: charger and panel carry the loads, and the battery gives what they cannot.
OperatingPoint refusing(const Connections& connections, const HouseBattery& battery, const BatteryLevel& level) {
    OperatingPoint found =
        solve_constant_current(connections, {connections.charger, connections.sun}, battery, level, level.open);
    if (found.battery > Current{}) {
        const Current loads = all_loads(connections, connections.target).current;
        found = point(battery, level, Current{}, loads, connections.target);
    }
    return found;
}

bool refuses(const Connections& connections, const HouseBattery& battery, const BatteryLevel& level) {
    return !connections.takes_charge || (battery.one_well && !(level.level < 1.0));
}

}  // namespace

OperatingPoint operating_point(const Connections& connections, const HouseBattery& battery, const BatteryLevel& level,
                               ChargeMode mode, Voltage near) {
    if (connections.has_source() && refuses(connections, battery, level)) return refusing(connections, battery, level);
    return mode == ChargeMode::constant_voltage
               ? solve_constant_voltage(connections, battery, level, near)
               : solve_constant_current(connections, {connections.charger, connections.sun}, battery, level, near);
}

Current beside_link(const Connections& connections, Voltage terminals) {
    return connections.by_relay && connections.sun > Power{} ? Current(connections.sun / terminals) : Current{};
}

Voltage cable_volts(const Connections& connections, Current source) {
    if (!(connections.charger > Current{})) return {};
    return connections.output_path *
           std::max<Current>(source - beside_link(connections, connections.target), Current{});
}

ChargeMode mode_at(const Connections& connections, const HouseBattery& battery, const BatteryLevel& level,
                   const OperatingPoint& at_constant_current) {
    if (!connections.has_source() || refuses(connections, battery, level)) return ChargeMode::constant_current;
    return at_constant_current.terminals + cable_volts(connections, at_constant_current.source) > connections.target
               ? ChargeMode::constant_voltage
               : ChargeMode::constant_current;
}

}  // namespace voltwright

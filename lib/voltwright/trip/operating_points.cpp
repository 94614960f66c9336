#include "voltwright/trip/operating_points.hpp"

#include <algorithm>

namespace voltwright {

Current drawn_by(const Consumer& consumer, Voltage battery) {
    return LoadThroughCable(consumer.draw, consumer.path).at(battery).current;
}

namespace {

/// Outside these no battery of 12 V is: they keep a point that is only extended to from running away.
constexpr Voltage least = volts(6.0), most = volts(20.0);
/// A point may be as wrong as this.
constexpr Voltage nearly = volts(1e-6);

/// Newton's steps square what is wrong: after one, the bend of the loads' law, I/V² at most, times the resistance is
/// left of its square.
bool settles(Voltage step, Voltage across, Voltage terminals) {
    return step * step * across < nearly * terminals * terminals;
}

LoadCurrent all_loads(const Switched& switched, Voltage battery) {
    LoadCurrent sum{};
    for (const LoadThroughCable& load : switched.running) {
        const LoadCurrent draw = load.at(battery);
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

/// V = V_open + R·(charger + P_sun/V − loads(V))
OperatingPoint giving(const Switched& switched, const HouseBattery& battery, const BatteryLevel& level, Voltage near) {
    Voltage terminals = near;
    Current into{}, source{};
    const bool shines = switched.sun > Power{};
    for (int round = 0; round < 12; ++round) {
        const LoadCurrent loads = all_loads(switched, terminals);
        source = switched.charger;
        Conductance less_sun{};
        if (shines) {
            const Current sun = switched.sun / terminals;
            less_sun = sun / terminals;
            source += sun;
        }
        into = source - loads.current;
        const bool takes = into > Current{};
        const Resistance inside = takes ? switched.taking(level) : level.giving;
        const double slope = 1.0 + inside * (loads.slope + less_sun);
        const Voltage next =
            std::clamp(terminals - (terminals - level.open - into * inside) / std::max(slope, 0.2), least, most);
        const Voltage step = next - terminals;
        terminals = next;
        source -= less_sun * step;
        into -= (less_sun + loads.slope) * step;
        if (settles(step, inside * (loads.current + source), terminals) && takes == (into > Current{})) break;
    }
    return point(battery, level, into, source, terminals);
}

/// V = target − R_cable·(loads(V) + (V − V_open)/R)
OperatingPoint holding(const Switched& switched, const HouseBattery& battery, const BatteryLevel& level, Voltage near) {
    const Resistance cable = switched.charger > Current{} ? switched.output_path : Resistance{};
    Voltage terminals = near;
    Current loads{}, into{};
    for (int round = 0; round < 12; ++round) {
        const LoadCurrent drawn = all_loads(switched, terminals);
        const bool takes = terminals > level.open;
        const Conductance inside = 1.0 / (takes ? switched.taking(level) : level.giving);
        into = (terminals - level.open) * inside;
        const Voltage off = terminals - switched.target + cable * (drawn.current + into);
        const Voltage next = std::clamp(terminals - off / (1.0 + cable * (drawn.slope + inside)), least, most);
        const Voltage step = next - terminals;
        terminals = next;
        loads = drawn.current + drawn.slope * step;
        into += inside * step;
        if (settles(step, cable * loads, terminals) && takes == (terminals > level.open)) break;
    }
    if (into + loads < Current{}) {
        // A battery above the target: the charger gives nothing, and takes nothing back.
        Switched alone = switched;
        alone.charger = Current{};
        alone.sun = Power{};
        return giving(alone, battery, level, level.open);
    }
    return point(battery, level, into, into + loads, terminals);
}

/// A battery that takes no charge: charger and panel carry the loads, and the battery gives what they cannot.
OperatingPoint refusing(const Switched& switched, const HouseBattery& battery, const BatteryLevel& level) {
    OperatingPoint found = giving(switched, battery, level, level.open);
    if (found.battery > Current{}) {
        const Current loads = all_loads(switched, switched.target).current;
        found = point(battery, level, Current{}, loads, switched.target);
    }
    return found;
}

bool refuses(const Switched& switched, const HouseBattery& battery, const BatteryLevel& level) {
    return !switched.takes_charge || (battery.one_well && !(level.level < 1.0));
}

}  // namespace

OperatingPoint operating_point(const Switched& switched, const HouseBattery& battery, const BatteryLevel& level,
                               ChargeMode mode, Voltage near) {
    if (switched.has_source() && refuses(switched, battery, level)) return refusing(switched, battery, level);
    return mode == ChargeMode::holding ? holding(switched, battery, level, near)
                                       : giving(switched, battery, level, near);
}

Voltage cable_volts(const Switched& switched, Current source) {
    return switched.charger > Current{} ? switched.output_path * source : Voltage{};
}

ChargeMode mode_at(const Switched& switched, const HouseBattery& battery, const BatteryLevel& level,
                   const OperatingPoint& giving) {
    if (!switched.has_source() || refuses(switched, battery, level)) return ChargeMode::giving;
    return giving.terminals + cable_volts(switched, giving.source) > switched.target ? ChargeMode::holding
                                                                                     : ChargeMode::giving;
}

}  // namespace voltwright

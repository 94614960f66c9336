#include "voltwright/trip/operating_points.hpp"

#include <algorithm>

namespace voltwright {

Current drawn_by(const Consumer& consumer, Voltage battery) {
    if (const auto* power = std::get_if<Power>(&consumer.draw)) {
        const auto inside = battery * battery - 4.0 * *power * consumer.path;
        if (inside < 0.0 * inside) return battery / (2.0 * consumer.path);
        return 2.0 * *power / (battery + sqrt(inside));
    }
    if (const auto* own = std::get_if<Resistance>(&consumer.draw)) return battery / (*own + consumer.path);
    return std::get<Current>(consumer.draw);
}

namespace {

/// Outside these no battery of 12 V is: they keep a point that is only extended to from running away.
constexpr Voltage least = volts(6.0), most = volts(20.0);
/// A point has settled when its volts stay as they are to this: the step that follows makes them a hundred times truer.
constexpr Voltage settled = volts(2e-5);

/// All loads at a voltage, and how much less they draw for a volt more: a load of constant power draws less, the others
/// are taken so too, which costs them a round more.
struct Loads {
    Current current;
    Current per_relative_volt;  ///< times the voltage
};

Loads all_loads(const Switched& switched, Voltage battery) {
    Loads sum{};
    for (const auto& [consumer, duty] : switched.running) {
        const Current current = duty * drawn_by(*consumer, battery);
        sum.current += current;
        if (consumer->draw.index() == 0) sum.per_relative_volt += current;
    }
    return sum;
}

OperatingPoint point(const HouseBattery& battery, const BatteryLevel& level, Current into, Current source,
                     Voltage terminals) {
    const Current kept = into > Current{} ? stored(battery, level.level, into) : into;
    return {kept - battery.self_discharge, into, source, terminals, level.open, level.giving};
}

OperatingPoint giving(const Switched& switched, const HouseBattery& battery, const BatteryLevel& level, Voltage rise) {
    const bool fed = switched.has_source();
    Voltage terminals = level.open + rise;
    Current into{}, source{};
    for (int round = 0; round < 12; ++round) {
        const Loads loads = all_loads(switched, terminals);
        const Current sun = fed ? switched.sun / terminals : Current{};
        source = switched.charger + sun;
        into = source - loads.current;
        const Resistance inside = into > Current{} ? level.taking : level.giving;
        // Newton's step on V = V_open + I(V)·R.
        const double stiff = 1.0 - inside * (loads.per_relative_volt - sun) / terminals;
        const Voltage off = terminals - level.open - into * inside;
        terminals = std::clamp(terminals - off / std::max(stiff, 0.2), least, most);
        if (abs(off) < settled) break;
    }
    return point(battery, level, into, source, terminals);
}

OperatingPoint holding(const Switched& switched, const HouseBattery& battery, const BatteryLevel& level) {
    const Resistance cable = switched.charger > Current{} ? switched.output_path : Resistance{};
    Voltage terminals = switched.target;
    Current loads{}, into{};
    for (int round = 0; round < 12; ++round) {
        loads = all_loads(switched, terminals).current;
        const Resistance inside = terminals > level.open ? level.taking : level.giving;
        const Voltage next = std::clamp(
            (switched.target - cable * loads + cable * level.open / inside) / (1.0 + cable / inside), least, most);
        into = (next - level.open) / inside;
        const bool still = abs(next - terminals) < settled;
        terminals = next;
        if (still) break;
    }
    if (into + loads < Current{}) {
        // A battery above the target: the charger gives nothing, and takes nothing back.
        Switched alone = switched;
        alone.charger = Current{};
        alone.sun = Power{};
        return giving(alone, battery, level, Voltage{});
    }
    return point(battery, level, into, into + loads, terminals);
}

/// A battery that takes no charge: charger and panel carry the loads, and the battery gives what they cannot.
OperatingPoint refusing(const Switched& switched, const HouseBattery& battery, const BatteryLevel& level) {
    OperatingPoint found = giving(switched, battery, level, Voltage{});
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
                               ChargeMode mode, Voltage rise) {
    if (switched.has_source() && refuses(switched, battery, level)) return refusing(switched, battery, level);
    return mode == ChargeMode::holding ? holding(switched, battery, level) : giving(switched, battery, level, rise);
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

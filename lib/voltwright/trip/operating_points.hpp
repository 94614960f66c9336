#pragma once

#include "voltwright/circuit/load.hpp"
#include "voltwright/trip/journey.hpp"

#include <span>

namespace voltwright {

/// What flows at one level of the available well. Amperes at the battery's terminals; into it positive.
struct OperatingPoint {
    Current stored;   ///< into the wells, after what is lost to gassing; self-discharge taken off
    Current battery;  ///< at the terminals
    Current source;   ///< from charger and panel
    Voltage terminals;
    Resistance inside;  ///< of the battery while it gives
};

/// Whether the charger gives what it can, or holds its voltage.
enum class ChargeMode { giving, holding };

/// What a consumer draws while it runs, at a voltage of the battery, through its cable.
///
///     power      I = 2·P/(V + √(V² − 4·P·R))      resistance   I = V/(R_load + R)      current   I
///
/// Power that cannot come through the cable draws V/(2·R), the most that comes through: its guard has long tripped.
Current drawn_by(const Consumer& consumer, Voltage battery);

/// What draws now and what feeds now.
struct Switched {
    std::span<const LoadThroughCable> running;
    Current charger;
    Power sun;
    Voltage target;  ///< that charger and regulator hold at most
    Resistance output_path;
    bool takes_charge;
    double cold_acceptance =
        1.0;  ///< how many times its resistance in the warmth the battery sets against being charged

    /// What stands against a current into the battery now.
    [[nodiscard]] Resistance taking(const BatteryLevel& level) const {
        return level.giving + cold_acceptance * (level.taking - level.giving);
    }
    [[nodiscard]] bool has_source() const { return charger > Current{} || sun > Power{}; }
};

/// The voltages and currents that settle at one level of the battery.
///
/// Loads, charger, panel and battery meet at its terminals: the charger gives its current until its target voltage is
/// reached at its own end of the output cable, then holds that. Solved by Newton's method, to a few nanovolts; `near`
/// is where it begins.
OperatingPoint operating_point(const Switched& switched, const HouseBattery& battery, const BatteryLevel& level,
                               ChargeMode mode, Voltage near);

/// What the charger's output cable loses at a current; a panel alone has none.
Voltage cable_volts(const Switched& switched, Current source);

/// The mode that the charger is in at that level: holding once giving, as worked out for it, lifts it above its target.
ChargeMode mode_at(const Switched& switched, const HouseBattery& battery, const BatteryLevel& level,
                   const OperatingPoint& giving);

}  // namespace voltwright

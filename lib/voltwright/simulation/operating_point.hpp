#pragma once

#include "voltwright/simulation/scenario.hpp"

#include <vector>

namespace voltwright {

/// What flows at one level of the available charge. Amperes at the battery's terminals; into it positive.
struct OperatingPoint {
    Current stored;   ///< into the battery's charge, after what is lost to gassing; self-discharge taken off
    Current battery;  ///< at the terminals
    Current source;   ///< from charger and panel
    Voltage terminals;
    Resistance inside;  ///< of the battery while it gives
};

/// Constant current, and constant voltage: the charger gives what it can, or holds its target voltage. No source is
/// `constant_current` of nothing.
enum class ChargeMode : unsigned char { constant_current, constant_voltage };

/// What a consumer draws while it runs, at a voltage of the battery, through its cable. Of power that cannot come through
/// the cable the most that does: its cut-off has long acted.
Current drawn_by(const Consumer& consumer, Voltage battery);

/// A load as it runs now: for its share of the time, through its cable.
struct RunningLoad {
    LoadThroughCable load;
    std::size_t consumer;  ///< among those of the scenario
};

/// What is connected to the battery: what draws and what feeds.
struct Connections {
    std::vector<RunningLoad> running;
    Current charger;
    Power sun;
    Voltage target;  ///< that charger and regulator hold at most
    Resistance output_path;
    bool takes_charge;
    bool by_relay = false;         ///< the charger is a relay's link: what a panel gives does not come through it
    double cold_acceptance = 1.0;  ///< how many times its resistance in the warmth stands against charging
    std::optional<Current> charge_limit = {};  ///< no more flows into it: in the cold lithium bears little

    /// What stands against a current into the battery.
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
OperatingPoint operating_point(const Connections& connections, const HouseBattery& battery, const BatteryLevel& level,
                               ChargeMode mode, Voltage near);

/// What the charger's output cable loses at a current of all sources; a panel alone has none.
Voltage cable_volts(const Connections& connections, Current source);

/// What a panel gives at a voltage beside a relay's link; nothing elsewhere, where one cable is taken to bring all.
Current beside_link(const Connections& connections, Voltage terminals);

/// The mode that the charger is in at that level: constant voltage once constant current,
/// whose operating point is given, lifts it above its target.
ChargeMode mode_at(const Connections& connections, const HouseBattery& battery, const BatteryLevel& level,
                   const OperatingPoint& at_constant_current);

}  // namespace voltwright

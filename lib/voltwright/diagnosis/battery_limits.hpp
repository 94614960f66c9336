#pragma once

#include "voltwright/diagnosis/meter.hpp"
#include "voltwright/tables/practice.hpp"
#include "voltwright/vehicle/system.hpp"

namespace voltwright {

/// What is still right of the batteries' own voltages, whoever asks.
struct BatteryLimits {
    Voltage starter_rested, house_rested;   ///< the least of a battery that is good for a test
    Voltage starter_charged;                ///< below it nothing charges the starter battery: 0.3 V above its rest
    Voltage starter_running;                ///< below it the alternator is warm or loaded, and worth a look
    Voltage starter_highest;                ///< the most that an alternator gives
    Voltage house_charging, house_highest;  ///< between them while the charger's profile fills it
};
BatteryLimits battery_limits(const System& system, const Tables& tables = built_in_tables());

/// What a sleeping charger or a switched-off load may seem to take: its electronics, and the clamp's zero.
Current most_asleep(const Meter& meter);

/// A place that a sound battery feeds has at least this, with nothing on (data/practice/voltages.toml).
inline const Voltage fed_least = in_practice(PracticeVoltage::fed_least);

/// A battery may stand below its rest by this while its loads run (data/practice/voltages.toml).
inline const Voltage loads_sag = in_practice(PracticeVoltage::loads_sag);

}  // namespace voltwright

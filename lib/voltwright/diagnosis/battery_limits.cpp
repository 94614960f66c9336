#include "voltwright/diagnosis/battery_limits.hpp"

#include "voltwright/diagnosis/test_condition.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// A starter battery below this wants charging before anything is tested: about 75 % (data/practice/).
const Voltage starter_least = in_practice(PracticeVoltage::starter_least);
/// A battery more than four tenths down is charged first (data/practice/).
const Ratio house_least = in_practice(PracticeShare::house_least);
/// What a sleeping charger or a switched-off load may take: its electronics.
constexpr Current sleeping = amperes(0.1);
/// An engine that runs lifts its battery by more than this, or nothing charges it. A regulator that holds 12.9 V at 80 degC
/// still does: service manuals give 12.9 to 14.1 V hot (read).
constexpr Voltage charging_lifts = volts(0.3);
/// Warm and at speed an alternator gives no more than this above its usual; above it a regulator has failed (common
/// practice, no source).
constexpr Voltage regulator_strays = volts(0.6);

}  // namespace

BatteryLimits battery_limits(const System& system, const Tables& tables) {
    const Meter meter = meter_of(system.meter);
    const StarterBattery& starter = system.starter;
    Voltage absorption = system.charger.absorption;
    for (const SystemRun& run : system.runs)
        if (const auto* charger = std::get_if<ConverterLoad>(&run.load))
            absorption = charger->highest_absorption.voltage;
    const Voltage lowest = starter.lowest_running - meter.error(starter.lowest_running);
    const auto for_meter = [&](Voltage least) -> Voltage { return least - meter.error(least); };
    return {.starter_rested = for_meter(starter_least),
            .house_rested = for_meter(house_at_rest(system, house_least, tables)),
            // A smart alternator is let down further.
            .starter_charged = std::min<Voltage>(rested_starter + charging_lifts, lowest),
            .starter_running = lowest,
            .starter_highest = starter.running + regulator_strays,
            .house_charging = rested_house(system, tables) - loads_sag,
            .house_highest = absorption + meter.error(absorption)};
}

Current most_asleep(const Meter& meter) { return sleeping + meter.error(Current{}); }

}  // namespace voltwright

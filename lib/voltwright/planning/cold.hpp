#pragma once

#include "voltwright/simulation/scenario_inputs.hpp"
#include "voltwright/simulation/simulate.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>

namespace voltwright {

/// How warm it is where things stand, over the trip.
struct Warmth {
    Temperature battery = celsius(-273.15);  ///< of the house battery itself, at its hottest
    Temperature coldest = celsius(1000);     ///< and at its coldest
    Duration sourced = {};                   ///< with the engine on or the sun on a panel
    Duration too_hot_to_charge = {};         ///< of that
    Duration too_cold_to_charge = {};        ///< of that, or being warmed
    std::optional<Duration> to_warm = {};    ///< the longest that a heater took before the battery was charged
    /// Where it takes charge and its cells are cold: the least that they bear, and how warm they are then.
    std::optional<ColdChargeLimit> bears_least = {};
    std::optional<Temperature> at_charger = {};  ///< around it while it runs, at the hottest
};

/// What would bring charge into lithium that is too cold for it, each tried.
struct FrostCure {
    std::optional<Power> heater;  ///< the smallest with which it is charged for most of the time that there is a source
    std::optional<Power> holding;      ///< the smallest with which the trip holds
    bool holds_in_the_warmth = false;  ///< in a place that stays above where it takes charge
};

/// The trip without a sensor on the battery, where the profile does not say whether there is one and the cold makes it matter.
struct WithoutSensor {
    Ratio lowest;
    bool holds;
};

/// How warm and how cold it is where things stand, and how long that keeps the battery from being charged.
Warmth warmth_of(const Scenario& scenario, const ScenarioInputs& inputs);

/// Lithium takes no charge for more than half of the time in which there is any.
bool hardly_charged(const Warmth& warmth);

/// What cures that, each simulated; empty where nothing needs a cure. `holds` is whether the trip does as it is.
std::optional<FrostCure> frost_cure(const ScenarioInputs& inputs, const Warmth& warmth, SimulationOptions options,
                                    bool holds);

/// Lead in the cold, and nobody said whether the charger has a sensor: the trip without one.
std::optional<WithoutSensor> without_sensor(const System& system, const ScenarioInputs& inputs, const Warmth& warmth,
                                            SimulationOptions options);

}  // namespace voltwright

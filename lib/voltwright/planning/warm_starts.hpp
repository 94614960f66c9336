#pragma once

#include "voltwright/simulation/scenario_inputs.hpp"
#include "voltwright/simulation/simulate.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// Fridges of a trip that holds, and would not if they were filled with warm things when it starts. They are looked at
/// together. Into those that have something put in on the first day nothing more goes.
///
/// `trip` is what simulating `scenario` with `options` gave.
std::vector<std::string> fridges_to_cool_first(const ScenarioInputs& inputs, const Scenario& scenario,
                                               const SimulationOptions& options, const TripResult& trip);

}  // namespace voltwright

#pragma once

#include "voltwright/simulation/result.hpp"
#include "voltwright/simulation/scenario.hpp"

namespace voltwright {

/// Simulates a battery through a scenario.
///
/// Within an interval the currents are linear in the level of the available charge between two marks of the battery, so
/// the battery advances by closed-form steps. A step ends at the next event: where the level passes a mark, where the
/// charger goes to constant voltage or to float, where a cut-off acts or reconnects, where a depleted battery has
/// recovered, or with the interval. Allocates only at the start.
TripResult simulate(const Scenario& scenario, const SimulationOptions& options = {});

}  // namespace voltwright

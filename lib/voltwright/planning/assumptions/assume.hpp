#pragma once

#include "voltwright/planning/assumptions/assumption.hpp"
#include "voltwright/planning/energy_plan.hpp"
#include "voltwright/planning/run_plan.hpp"

#include <vector>

namespace voltwright {

/// What the cables and fuses rest on.
Assumptions assumed_in_wiring(const System& system, const std::vector<RunPlan>& runs, const Tables& tables);

/// Shorts that last longer than 5 s, which cables stand.
void assume_shorts(const std::vector<RunPlan>& runs, Assumptions& assumed);

/// What the trip rests on.
Assumptions assumed_in_energy(const EnergyPlan& energy, const Tables& tables);

}  // namespace voltwright

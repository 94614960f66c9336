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
Assumptions assumed_in_energy(const EnergyPlan& energy, const System& system, const Tables& tables);

/// That the battery is new.
void assume_new_battery(const std::optional<WornBattery>& worn, Assumptions& assumed);

/// That an engine that idles is no drive.
void assume_idling(const EnergyPlan& energy, const System& system, Assumptions& assumed);

}  // namespace voltwright

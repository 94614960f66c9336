#pragma once

#include "voltwright/planning/run_plan.hpp"

#include <vector>

namespace voltwright {

/// Solves every tree of runs once and sets the figures of its runs (NetworkFigures). Only reads what was chosen.
void note_network(std::vector<RunPlan>& runs, const System& system, const Tables& tables);

}  // namespace voltwright

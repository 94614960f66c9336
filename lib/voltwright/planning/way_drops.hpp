#pragma once

#include "voltwright/planning/run_plan.hpp"

#include <vector>

namespace voltwright {

/// Sets what may be lost from the source to the end of each run that shares a way: with the currents counted, and as the
/// whole network settles at every minute of the day at which something is switched on.
void note_way_drops(std::vector<RunPlan>& runs, const RunTree& tree);

}  // namespace voltwright

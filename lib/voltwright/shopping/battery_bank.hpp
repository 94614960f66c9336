#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/shopping/parts_list.hpp"

namespace voltwright {

/// What ties batteries in parallel together. They feed a short in one of them: a fuse on each, and links that are sized
/// like any run, for all that may flow in or out of the bank.
void add_battery_bank(PartsList& list, const System& system, const Plan& plan, const Tables& tables);

}  // namespace voltwright

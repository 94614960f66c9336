#pragma once

#include "voltwright/planning/bank_links.hpp"
#include "voltwright/planning/energy_plan.hpp"
#include "voltwright/planning/findings/finding.hpp"
#include "voltwright/planning/run_plan.hpp"

#include <vector>

namespace voltwright {

/// What the rules have to say of a run that was sized: what no size cures, what a given cable or fuse fails, where a
/// figure is only assumed. `before` is the run that it hangs on, or nullptr.
Findings find_in_run(const RunPlan& run, const RunPlan* before, const System& system, const Tables& tables);

/// What the energy side has to say: what stops the trip, what wears the battery out, what is only assumed.
Findings find_in_energy(const EnergyPlan& energy, const System& system, const Tables& tables);

/// What concerns the vehicle as a whole.
Findings find_in_system(const System& system, const std::vector<RunPlan>& runs, const Tables& tables);

/// What concerns the links of a bank: whether a size and a fuse are made for them.
Findings find_in_bank(const std::optional<BankLinks>& bank);

}  // namespace voltwright

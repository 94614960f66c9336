#pragma once

#include "voltwright/planning/objective.hpp"
#include "voltwright/planning/run_plan.hpp"

#include <cstddef>
#include <vector>

namespace voltwright {

/// What a load draws at the least voltage that its limit leaves it; a trunk's current is such a sum already. Volts lost on
/// a shared way are counted with it.
Current counted_current(const SystemRun& task);

/// What may be lost from the source to the end of a run. A charger has to keep its input at the lowest running voltage as
/// well; the volts lost then are more than those counted here, as its current is.
Voltage allowed_loss(const SystemRun& task);

/// What a run loses in one of its sizes, with the current counted.
Voltage counted_loss(const RunPlan& run, const Candidate& candidate);

/// The sizes of a run that pass all but what it shares, as indices of its ladder; a given one alone.
std::vector<std::size_t> usable_sizes(const RunPlan& run);
/// Those of them that have a price; none where one of them is priced by a row for any size.
std::vector<std::size_t> sizes_for_sale(const RunPlan& run, const Objective& objective);

/// Takes a size of the ladder, and notes what decided it. A given size stays.
void take(RunPlan& run, std::size_t size);

/// Takes a size for each run that shares a way with others, tree by tree: for the least copper; with an objective for the
/// least money where there is a choice of it.
void choose_shared_ways(std::vector<RunPlan>& runs, const RunTree& tree, const Tables& tables,
                        const Objective* objective);

}  // namespace voltwright

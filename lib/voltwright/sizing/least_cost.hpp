#pragma once

#include "voltwright/sizing/fed_run.hpp"

#include <cstddef>
#include <optional>
#include <vector>

/// The sizes of runs that feed one another, chosen together: what counts is the volts lost from the source to the
/// appliance, and a thicker trunk may let every branch behind it be thinner.
namespace voltwright {

/// Chooses one option for each run: no limit is exceeded and the sum of the costs is the least there is. Gives the
/// place of each run's option in its list; empty when nothing fits.
///
///     Σ cost → least    with    Σ lost along the way to a run ≤ its limit, for every run that has one
///
/// Among choices that cost the same, the one that loses the fewest volts (the sum over all runs) is taken; among those
/// the one with the earliest option, hence the thinnest, in the runs nearest the source.
///
/// The volts lost in a run depend on its own size alone. A caller with loads of constant power takes the current of
/// each at the least voltage that its limit allows; that can only overestimate what is lost.
///
/// Method: dynamic programming over the tree. The least cost of a run and all behind it is a falling step function of the
/// drop upstream of it, kept as a Pareto front. Fronts of runs that begin at one place are added; a run takes the lower
/// envelope of that sum shifted by the drop of each of its options.
///
/// Cost: a sum has no more points than its terms together; a run has no more than the sum behind it times its number of
/// options. A star of n branches with m options thus has at most n·m² points; a chain of n runs has m^n at worst, for it
/// holds the multiple-choice knapsack problem. Cables are far from the worst: points that no upstream drop can reach are
/// dropped, and so are those that a lower bound excludes. 30 runs of 20 sizes take less than a millisecond, as a star, a
/// comb or a chain (tests/bench/least_cost.cpp).
///
/// The bound: the linear relaxation, in which a run may mix its options, is convex, and merging the segments of its cost
/// functions solves it. Its shadow prices give Lagrange multipliers of the limits, and these a straight line below every
/// point of a subtree. The relaxation rounded to the side of less drop keeps all limits and is a first answer; a point that
/// exceeds its line by more than that answer exceeds the line of its source cannot be part of a better one.
///
/// Exact, with volts rounded to whole picovolts and costs to decimal parts of 10^-15 to 10^-14 of the dearest choice:
/// sums do not depend on their order, and 0.1 V + 0.2 V fits a limit of 0.3 V. A caller who adds up the volts of a way
/// in floating point may find it over its limit by half a picovolt a run.
///
/// Throws std::logic_error when runs feed one another in a circle, when a run is fed by one that is not in the list,
/// when a cost or a loss is negative or not finite, or when volts add up to a million.
std::optional<std::vector<std::size_t>> least_cost(const std::vector<FedRun>& runs);

}  // namespace voltwright

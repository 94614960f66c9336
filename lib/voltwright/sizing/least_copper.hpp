#pragma once

#include "voltwright/units/quantities.hpp"

#include <cstddef>
#include <optional>
#include <vector>

/// The sizes of runs that feed one another, chosen together: what counts is the volts lost from the source to the
/// appliance, and a thicker trunk may let every branch behind it be thinner.
namespace voltwright {

/// A size that a run may have: it passes every criterion of its own.
struct SizeOffer {
    double cost;   ///< kilograms of copper or money: the same for all runs
    Voltage lost;  ///< in this run alone, everything behind it on together
};

/// A run among others.
struct FedRun {
    std::optional<std::size_t> fed_by;  ///< the run before it, by its place in the list; empty: a source
    std::vector<SizeOffer> offers;      ///< by rising area; only ties are settled by the order
    std::optional<Voltage> limit = {};  ///< the most that may be lost from the source to its far end
};

/// Chooses one offer for each run: no limit is exceeded and the sum of the costs is the least there is. Gives the
/// place of each run's offer in its list; empty when nothing fits, and then unmet_limits() says why.
///
///     Σ cost → least    with    Σ lost along the way to a run ≤ its limit, for every run that has one
///
/// Among choices that cost the same, the one that loses the fewest volts (the sum over all runs) is taken; among those
/// the one with the earliest offer, hence the thinnest, in the runs nearest the source.
///
/// The volts lost in a run depend on its own size alone. A caller with loads of constant power takes the current of
/// each at the least voltage that its limit allows; that can only overestimate what is lost.
///
/// Method: dynamic programming from the ends to the source. For the volts u lost before a run, the least cost of it
/// and all behind it is a rising step function of u. The functions of runs that begin at one place are added; a run
/// takes the lowest of that sum shifted by the volts of each of its offers.
///
/// Cost: a sum has no more steps than its terms together; a run has no more than the sum behind it times its number of
/// offers. A star of n branches with m offers thus has at most n·m² steps; a chain of n runs has m^n at worst, for it
/// holds the multiple-choice knapsack problem. Cables are far from the worst: steps that nothing before them can use
/// are dropped, and so are those of which a lower bound (see below) shows that they cannot be part of a best answer.
/// 30 runs of 20 sizes take less than a millisecond, as a star, a comb or a chain (tests/bench/least_copper.cpp).
///
/// The bound: where mixtures of offers are allowed the problem is convex, and merging slopes solves it. Its multipliers
/// give each run a straight line in u below which no step can lie; at the sources the lines add up to what the mixtures
/// cost. The mixtures rounded to the thicker side fit and are a first answer. A step that lies higher above its line
/// than that answer lies above the line of its source cannot be part of a better one.
///
/// Exact, with volts rounded to whole picovolts and costs to decimal parts of 10^-15 to 10^-14 of the dearest choice:
/// sums do not depend on their order, and 0.1 V + 0.2 V fits a limit of 0.3 V. A caller who adds up the volts of a way
/// in floating point may find it over its limit by half a picovolt a run.
///
/// Throws std::logic_error when runs feed one another in a circle, when a run is fed by one that is not in the list,
/// when a cost or a loss is negative or not finite, or when volts add up to a million.
std::optional<std::vector<std::size_t>> least_copper(const std::vector<FedRun>& runs);

/// A limit that cannot be met whatever is chosen.
struct UnmetLimit {
    std::size_t run;
    Voltage least;  ///< lost from the source to its far end when each run on the way has the offer that loses least
    Voltage limit;
};

/// Every such limit, in the order of the runs. None: least_copper() has an answer, unless a run has no offers; limits
/// behind such a run are left out.
std::vector<UnmetLimit> unmet_limits(const std::vector<FedRun>& runs);

}  // namespace voltwright

#pragma once

#include "voltwright/planning/objective.hpp"
#include "voltwright/planning/run_plan.hpp"

#include <vector>

namespace voltwright {

/// Cables and fuses for every run of a system.
///
/// A run that begins at a battery and ends at one thing is chosen alone. Runs that share a trunk are chosen together, for
/// the least copper: the volts lost from the battery to each appliance stay within its limit, with everything on that can
/// be on together and each load drawing what it draws at the least voltage that its limit leaves it. That can only
/// overestimate, so what is chosen keeps its limits; and it makes the volts of each run its own, so that the choice is
/// exact (least_cost()). A fuse behind other runs is held against a fault through them, which depends on what is chosen
/// for them: chosen again until nothing changes.
///
/// With an objective the least money takes the place of the least copper. A size without a price is not for sale, and for
/// equal money the thicker is taken. A run goes for the least copper all the same, and so do all that share a way with it,
/// where nothing that would do has a price, or where one price for any size prices some of it. Ladders are then whole.
std::vector<RunPlan> choose_cables(const System& system, const Tables& tables, Ladder ladder,
                                   const Objective* objective = nullptr);

/// The same once more, with all cable that is not there already and of a higher class taken to be of this class instead, its
/// material not known: only which size and fuse each run would get. A size thinner than one chosen before, for a run by
/// itself, does not come into question: insulation that bears less does not make a thinner cable do.
std::vector<RunPlan> choose_again(const System& system, const std::vector<RunPlan>& chosen, Temperature insulation,
                                  const Tables& tables, const Objective* objective = nullptr);

}  // namespace voltwright

#pragma once

#include "voltwright/planning/plan.hpp"

#include <cstddef>
#include <string>
#include <vector>

/// Which run is drawn where in a wiring diagram: what hangs from each battery, whichever way its current flows.
namespace voltwright {

/// What leads on from a place.
struct WiringBranch {
    const RunPlan* run;  ///< nullptr: not a run, see `note`
    std::string note;
    std::size_t node;  ///< the place that it leads to
};

struct WiringNode {
    Place place;
    std::vector<WiringBranch> branches;
};

struct WiringTree {
    std::vector<WiringNode> nodes;
    std::size_t starter = 0, battery = 0;  ///< nodes from which everything hangs
    std::vector<const RunPlan*> output;    ///< from the charger to the house battery
    std::vector<const RunPlan*> apart;     ///< that hang from neither battery
};

/// It points into the plan. Runs behind more than sixty others are drawn apart.
WiringTree wiring_tree(const Plan& plan, const System& system);

/// How many places with branches of their own follow each other at most behind a node.
std::size_t depth_of(const WiringTree& tree, std::size_t node);

}  // namespace voltwright

#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/shopping/parts_list.hpp"

namespace voltwright {

/// What a run is laid in and held by: one tube, two grommets where it passes from one place to another, and clips.
void add_laying(PartsList& list, const System& system, const RunPlan& run, const Candidate& taken,
                const Tables& tables);

}  // namespace voltwright

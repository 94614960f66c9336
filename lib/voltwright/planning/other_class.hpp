#pragma once

#include "voltwright/planning/findings/finding.hpp"
#include "voltwright/planning/objective.hpp"
#include "voltwright/planning/run_plan.hpp"

#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// A run whose cable or fuse is another one with cable of another class.
struct OtherCable {
    std::string run;
    std::optional<Gauge> size;        ///< empty: no size passes, or the given one does not
    std::vector<FuseFit> fuses = {};  ///< with that size
    bool other_fuse = false;          ///< than with the class that the plan counts with
};

/// What becomes of the plan with cable of a lower temperature class: the cables that are still to be bought are chosen
/// again with it, all of them at once.
struct OtherClass {
    Temperature insulation;
    std::vector<OtherCable> runs = {};  ///< empty: it would do as well
};

/// Of the runs that nothing stops as they are, what they become with the class of much of the cable on sale; empty where
/// none of them has cable of a higher class to buy.
std::optional<OtherClass> with_usual_class(const System& system, const std::vector<RunPlan>& runs,
                                           const Findings& findings, const Tables& tables, const Objective* objective);

}  // namespace voltwright

#pragma once

#include "voltwright/reasons/finding.hpp"
#include "voltwright/sizing/choice.hpp"
#include "voltwright/vehicle/system.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// A run with the cable and the fuses that it gets, or that it has.
struct RunPlan {
    SystemRun task;
    Choice choice;

    /// The candidate that the plan goes with; nullptr when no size fits or the run is not sized.
    [[nodiscard]] const Candidate* taken() const { return choice.chosen(); }
    [[nodiscard]] bool sized() const { return task.role != RunRole::solar; }
};

/// The whole answer: every number holds what it was made from.
struct Plan {
    std::string title;
    std::vector<RunPlan> runs;
    Findings findings;                    ///< stops first, then warns, then notes
    std::vector<std::string> not_judged;  ///< what this version does not look at, in plain words

    /// A plan with a stop does not hold.
    [[nodiscard]] bool holds() const;
    /// Names of the runs that the profile does not describe.
    [[nodiscard]] std::vector<std::string> assumed() const;
};

Plan make_plan(const System& system, const Tables& tables = built_in_tables());

}  // namespace voltwright

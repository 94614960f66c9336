#pragma once

#include "voltwright/planning/plan.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace voltwright {

/// One thing that is another in the second plan. A word, a quantity, or nothing at all.
struct Changed {
    using Value = std::variant<std::monostate, std::string, Measure>;
    std::string about;      ///< "feed", "trip"
    std::string_view what;  ///< "size", "lowest state of charge"
    Value before, after;
};

/// Two plans of one vehicle side by side.
struct Replan {
    Plan before, after;
    std::vector<Changed> changed;  ///< only what a page shows differently
    Findings gone, come;
    /// What turned the verdict: the first stop that came, or the first that went. Empty when it did not turn.
    std::optional<Finding> turned;
};

Replan compare(Plan before, Plan after);

}  // namespace voltwright

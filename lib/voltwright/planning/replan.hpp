#pragma once

#include "voltwright/planning/plan.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace voltwright {

/// What of a plan is looked at from both sides.
enum class Aspect {
    length,
    size,
    fuse,
    drop,
    resistance,  ///< of its loop, where the power cannot be brought through it
    worst_current,
    hours_from_full,
    used_between_drives,
    used_in_a_day_and_a_night,  ///< where nobody drives
    days,
    used_a_day,
    charged_a_day,
    lowest_soc,
    soc_at_the_end,
    essential_off,
    an_hour_puts_back,
    most_a_day,  ///< of a fridge
};

/// One thing that is another in the second plan. A word, a quantity, or nothing at all.
struct Changed {
    using Value = std::variant<std::monostate, std::string, Measure>;
    std::string about;  ///< "feed", "trip"
    Aspect what;
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

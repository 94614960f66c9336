#pragma once

#include "cli/open.hpp"
#include "voltwright/planning/plan.hpp"

#include <optional>

namespace voltwright::cli {

/// The plan of the call's PROFILE, or nothing: what is wrong then stands on standard error, and the verb ends with
/// `unusable`.
/// `points`: with the timeline of the trip.
std::optional<Plan> plan_of(const Call& call, bool points = false);

}  // namespace voltwright::cli

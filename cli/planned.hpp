#pragma once

#include "cli/open.hpp"
#include "voltwright/planning/plan.hpp"

#include <optional>

namespace voltwright::cli {

/// The plan of the call's PROFILE, or nothing: what is wrong then stands on standard error, and the verb ends with
/// `unusable`.
std::optional<Plan> plan_of(const Call& call, PlanDetail detail = {});

}  // namespace voltwright::cli

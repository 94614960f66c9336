#include "cli/planned.hpp"

namespace voltwright::cli {

std::optional<Plan> plan_of(const Call& call, PlanDetail detail) {
    const auto profile = open_profile(call);
    if (!profile) return {};
    return make_plan(profile->system, built_in_tables(), detail);
}

}  // namespace voltwright::cli

#include "cli/planned.hpp"

namespace voltwright::cli {

std::optional<Plan> plan_of(const Call& call, bool points) {
    const auto profile = open_profile(call);
    if (!profile) return {};
    return make_plan(profile->system, built_in_tables(), points);
}

}  // namespace voltwright::cli

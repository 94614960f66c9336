#include "cli/planned.hpp"

namespace voltwright::cli {

std::optional<Plan> plan_of(const Call& call) {
    const auto profile = open_profile(call);
    if (!profile) return {};
    return make_plan(profile->system);
}

}  // namespace voltwright::cli

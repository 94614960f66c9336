#include "cli/planned.hpp"

#include "voltwright/vehicle/resolve.hpp"

namespace voltwright::cli {

std::optional<Plan> plan_of(const Call& call) {
    const auto profile = open_profile(call);
    if (!profile) return {};
    const auto system = resolve(profile->given, built_in_tables());
    if (const auto* faults = std::get_if<Faults>(&system)) {
        refuse(call, profile->document, *faults);
        return {};
    }
    return make_plan(std::get<System>(system));
}

}  // namespace voltwright::cli

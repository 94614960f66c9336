#pragma once

#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/profile.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/vehicle/system.hpp"

#include <variant>

namespace voltwright {

/// Turns a profile into a system: defaults filled in, names found in the tables, runs tied to places, forgotten ones
/// assumed. Faults when the profile contradicts itself or a required key is missing.
std::variant<System, Faults> resolve(const Profile& profile, const Tables& tables);

}  // namespace voltwright

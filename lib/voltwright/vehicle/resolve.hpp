#pragma once

#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/profile.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/result.hpp"
#include "voltwright/vehicle/system.hpp"

namespace voltwright {

/// Turns a profile into a system: defaults filled in, names found in the tables, runs tied to places, forgotten ones
/// assumed. Faults when a required key is missing, a value is outside the range of its key or no number, or the profile
/// contradicts itself: whether it was read from a file or made by hand. The tables have to outlive the system.
Result<System, Faults> resolve(const Profile& profile, const Tables& tables);

}  // namespace voltwright

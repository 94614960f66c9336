#pragma once

#include "voltwright/profile/profile.hpp"
#include "voltwright/tables/tables.hpp"

namespace voltwright {

/// Fills in every default that has one. What was given stays as it was.
Profile complete(const Profile& profile, const Tables& tables);

}  // namespace voltwright

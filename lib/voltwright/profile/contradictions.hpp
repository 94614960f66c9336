#pragma once

#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/profile.hpp"
#include "voltwright/tables/tables.hpp"

namespace voltwright {

/// What is wrong between the values of a profile, however good each is alone: names that nobody bears, runs that lead
/// nowhere or in a circle, limits the wrong way round. Each fault has the path of its key (`run[1].to`), and all are
/// found at once. What the profile does not say is not held against it.
Faults find_contradictions(const Profile& profile, const Tables& tables);

/// The same for a profile whose completed form is at hand.
Faults find_contradictions(const Profile& profile, const Profile& completed, const Tables& tables);

}  // namespace voltwright

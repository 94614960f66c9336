#pragma once

#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/profile.hpp"

namespace voltwright {

/// The keys that are needed and not given, for a profile that was not read from a text.
Faults missing_keys(const Profile& profile);

/// The values of a profile that are outside the ranges of their keys, no number at all, or against the rule of their key: for
/// one that was not read from a text, where read_profile() says the same.
Faults out_of_range(const Profile& profile);

}  // namespace voltwright

#pragma once

#include "voltwright/profile/entry.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/profile.hpp"

namespace voltwright {

/// Reads the tree into a profile by the key table: everything that is there, nothing that is not. Unknown keys, values
/// of the wrong kind or out of range and missing required keys are faults, in the order of the tree.
Profile read_profile(const Entry& root, Faults& faults);

}  // namespace voltwright

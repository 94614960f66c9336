#pragma once

#include "voltwright/profile/entry.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// `{"profile": {…}, "defaulted": ["trip.clearness", …]}`: a completed profile as a tree of the same shape as its file.
std::string list_profile_json(const Entry& completed, const std::vector<std::string>& defaulted);

}  // namespace voltwright

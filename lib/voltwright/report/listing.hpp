#pragma once

#include "voltwright/profile/profile.hpp"
#include "voltwright/tables/tables.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// The profile with every default filled in, as TOML: what was not given carries `# default`, and what has no default
/// stands as a comment that says what its absence means. It reads back to the same values.
std::string list_profile(const Profile& given, const Tables& tables);

/// The keys that complete() fills in, as `--set` would name them: `trip.days`, `run.feed.where`.
std::vector<std::string> defaulted_keys(const Profile& given, const Tables& tables);

/// A profile to fill in: what the simplest one has stands blank, every other key is a commented line that says what it is for.
std::string new_profile(const Tables& tables);

}  // namespace voltwright

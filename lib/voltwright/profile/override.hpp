#pragma once

#include "voltwright/profile/entry.hpp"
#include "voltwright/profile/fault.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// Puts `value` into the tree at a path as users write it: `trip.days`, `run.feed.length`, `fridge.draw`; entries of a
/// list go by their name, and the only one of a list may go without. A section that is not there is made; an entry of
/// a list is not. What `value` says of how it was said goes for everything in it. Answers what is wrong with the path,
/// if anything. Known names are the key table's.
std::optional<Fault> set(Entry& root, std::string_view path, Entry value);

}  // namespace voltwright

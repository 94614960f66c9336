#pragma once

#include "voltwright/profile/section.hpp"

namespace voltwright {

/// Where runs lead to and begin: names that nobody bears, loops, runs that no source feeds. Answers whether every run's own
/// two ends are sound.
bool look_at_ends_of_runs(const WholeProfile& whole, Faults& faults);

}  // namespace voltwright

#pragma once

#include "voltwright/planning/plan.hpp"

#include <string>
#include <string_view>

namespace voltwright {

/// What a finding says, in plain English, with both numbers: everything but the remedy.
std::string show(const Finding& finding);

/// "feed, starter to charger, 6 m"
std::string heading_of(const RunPlan& run);

/// "50 A SF30 at the starter battery"
std::string show(const FuseFit& fuse);

/// "starter battery", "house battery", "fuse block": a place as a sentence names it.
std::string place_in_words(std::string_view place);

/// "THE PLAN HOLDS.  2 things to note."
std::string verdict_line(const Plan& plan);

/// "1 cable", "3 cables"
std::string counted(std::size_t count, std::string_view one, std::string_view many);

}  // namespace voltwright

#pragma once

#include "voltwright/planning/findings/finding.hpp"

#include <string>
#include <string_view>

namespace voltwright {

/// "breaking-capacity": the code as an answer has it.
std::string_view show(FindingCode code);

/// What a finding says, in plain English, with both numbers: everything but what to do.
std::string show(const Finding& finding);

/// What to do, in plain English: next steps, not alarms.
std::string remedy_in_words(const Finding& finding);

}  // namespace voltwright

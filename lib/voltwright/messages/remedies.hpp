#pragma once

#include "voltwright/planning/findings/finding_code.hpp"

#include <string_view>

namespace voltwright {

/// "take-cable": the code as an answer has it.
std::string_view show(RemedyCode code);

/// The sentence, with the names of its arguments in braces: filled().
std::string_view sentence_of(RemedyCode code);

}  // namespace voltwright

#pragma once

#include "voltwright/planning/assumptions/assumption.hpp"

#include <string>
#include <string_view>

namespace voltwright {

/// "ampacity-row": the code as an answer has it.
std::string_view show(AssumptionCode code);

/// What is assumed, in plain English.
std::string show(const Assumption& assumption);

}  // namespace voltwright

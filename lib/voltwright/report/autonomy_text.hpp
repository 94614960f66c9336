#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>

namespace voltwright {

/// The answer of `autonomy`.
std::string autonomy_page(const AutonomyAnswer& answer, const Style& style);
std::string autonomy_line(const AutonomyAnswer& answer);

}  // namespace voltwright

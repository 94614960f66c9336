#pragma once

#include "voltwright/planning/replan.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>

namespace voltwright {

/// Before and after in one table, only what changed; both verdicts; what turned them.
std::string replan_page(const Replan& replan, const Style& style);
std::string replan_line(const Replan& replan);

}  // namespace voltwright

#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// The state of charge as a line over the days, nights and drives marked below it. Nothing of fewer than two points.
std::string soc_chart(const std::vector<TimelinePoint>& points, Ratio depth_limit, const Style& style);

}  // namespace voltwright

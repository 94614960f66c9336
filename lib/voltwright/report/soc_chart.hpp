#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/terminal.hpp"

#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// The state of charge as a line over the days, nights and drives marked below it. Nothing of fewer than two points.
/// `first_day`: the sun of the first day, where place and date are known.
std::string soc_chart(const std::vector<TimelinePoint>& points, Ratio depth_limit, const Style& style,
                      const std::optional<DaySun>& first_day = {});

}  // namespace voltwright

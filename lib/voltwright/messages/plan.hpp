#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/planning/replan.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// What a plan does not look at, as a line of its page says it.
std::string_view show(NotJudged what);
std::string_view code_of(NotJudged what);
std::vector<std::string> each_shown(const std::vector<NotJudged>& list);

/// What a row of a comparison is called: "lowest state of charge".
std::string_view show(Aspect what);
std::string_view code_of(Aspect what);

}  // namespace voltwright

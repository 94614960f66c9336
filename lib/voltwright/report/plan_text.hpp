#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// The page of `plan`: the verdict first, under a failing one the first stop and its remedy, then cables and fuses, what
/// was found, what was not judged, and the usual cautions.
std::string plan_page(const Plan& plan, const Style& style);

/// The cautions that every plan carries.
std::string cautions(const Style& style);
std::vector<std::string> caution_words();

/// How far apart the clips sit, as the table has it: "every 450 mm, on battery cables every 300 mm, the first within 1 m of
/// the terminal".
std::string clip_spacing(const Tables& tables = built_in_tables());

}  // namespace voltwright

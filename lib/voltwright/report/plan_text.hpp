#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/terminal.hpp"

#include <span>
#include <string>
#include <string_view>

namespace voltwright {

/// The page of `plan`: the verdict first, under a failing one the first stop and its remedy, then cables and fuses, what
/// was found, what was not judged, and the usual cautions.
std::string plan_page(const Plan& plan, const Style& style);

/// The cautions that every plan carries.
std::string cautions(const Style& style);
std::span<const std::string_view> caution_words();

}  // namespace voltwright

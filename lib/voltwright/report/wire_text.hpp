#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>
#include <string_view>

namespace voltwright {

/// The ladder of a run, or of all when `name` is empty: every size with the volts it loses, its heat, its ampacity, and
/// what it fails; then what the sums assumed, which is where charts differ.
std::string wire_page(const Plan& plan, std::string_view name, const Style& style);

}  // namespace voltwright

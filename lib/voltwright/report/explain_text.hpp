#pragma once

#include "voltwright/report/topics.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>

namespace voltwright {

/// A number with its equation, its inputs, and the sources they are from, down to the row of the table.
std::string explanation_page(const Explanation& explanation, const Style& style);

/// What can be explained.
std::string topics_page(const Plan& plan, const Style& style);

}  // namespace voltwright

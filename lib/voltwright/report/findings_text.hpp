#pragma once

#include "voltwright/planning/assumptions/assumption.hpp"
#include "voltwright/planning/findings/finding.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>
#include <string_view>

namespace voltwright {

/// The findings of a level under a heading, numbered, each with what to do; nothing where there is none.
std::string findings_section(const Findings& findings, Level level, std::string_view title, const Style& style);

/// A line for each assumption; nothing where there is none.
std::string assumed_section(const Assumptions& assumptions, const Style& style);

}  // namespace voltwright

#pragma once

#include "voltwright/sizing/cable_run.hpp"
#include "voltwright/sizing/rules.hpp"
#include "voltwright/sizing/run_load.hpp"

namespace voltwright {

/// Throws std::invalid_argument, with the name of the field, where an amount is none of its kind.
void expect_amounts(const CableRun& run);
void expect_amounts(const RunLoad& load);
void expect_amounts(const Supply& supply, const Rules& rules);

}  // namespace voltwright

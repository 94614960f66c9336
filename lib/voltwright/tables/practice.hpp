#pragma once

#include "voltwright/tables/practice_rows.hpp"
#include "voltwright/tables/tables.hpp"

/// What common practice says, where no source can be cited.
namespace voltwright {

/// The figure and its row. Every one has a row: a table without it is a mistake of whoever made the tables.
Cited<Voltage> practice(const Tables& tables, PracticeVoltage what);
Cited<Ratio> practice(const Tables& tables, PracticeShare what);
Cited<Length> practice(const Tables& tables, PracticeLength what);

/// Of the built-in tables.
Voltage in_practice(PracticeVoltage what);
Ratio in_practice(PracticeShare what);
Length in_practice(PracticeLength what);

}  // namespace voltwright

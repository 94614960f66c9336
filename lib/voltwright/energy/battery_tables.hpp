#pragma once

#include "voltwright/tables/tables.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

// Between the rows of a table in a straight line; beyond its first and last row, that row's figure is held.

/// The share of its capacity that a battery has at a temperature: never more than all of it, for a warm battery is no
/// reason to plan with more. Flooded lead: one over the cell size factor (IEEE 485, below -7 degC a maker's and an army
/// manual's), the factor in a straight line between its rows. Sealed lead and lithium: the share as their tables have it.
Ratio capacity_factor(const Tables& tables, std::string_view chemistry, Temperature around);
Ratio capacity_factor(const Tables& tables, const ChemistryRow& chemistry, Temperature around);

/// At rest for hours, from the state of charge.
Voltage rest_voltage(const Tables& tables, std::string_view chemistry, Ratio soc);

/// The mean of the rest voltage from full down to the chemistry's usual depth limit: what a battery that feeds a fridge has on
/// the whole. Under so small a current it reads a little less: an ampere-hour counted is then worth less than said here.
Voltage mean_running_voltage(const Tables& tables, const ChemistryRow& chemistry);

/// The state of charge from the voltage at rest. Empty for lithium: a tenth of a volt there is a third of the charge,
/// so only counted ampere-hours tell.
std::optional<Ratio> soc_at_rest(const Tables& tables, std::string_view chemistry, Voltage at_rest);

/// A battery that reads more than this is being charged, or has just been: 0.1 V above a full one at rest (common practice,
/// no source). Empty for lithium.
std::optional<Voltage> highest_at_rest(const Tables& tables, std::string_view chemistry);

}  // namespace voltwright

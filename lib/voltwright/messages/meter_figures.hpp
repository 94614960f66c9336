#pragma once

#include "voltwright/diagnosis/meter_value.hpp"
#include "voltwright/diagnosis/planned_reading.hpp"

#include <optional>
#include <string>
#include <utility>

/// Figures as a meter shows them.
namespace voltwright {

/// Two decimals of a volt, whole millivolts where it is on that range, a decimal of an ampere below ten.
std::string figure(const Measure& measure, MeterRange range);

/// Both in the unit that suits them: millivolts where neither is a volt.
std::pair<std::string, std::string> in_one_unit(const Measure& found, const Measure& limit);

/// " at 28 A"; nothing where no current is known.
std::string at_current(const std::optional<Current>& current);

/// "28 A", "9.5 mV", "12.38 V"
std::string show(const MeterValue& value);

/// "12.38 V ± 0.09 V": both in the unit of the value.
std::string with_tolerance(const MeterValue& value, const MeterValue& tolerance);

}  // namespace voltwright

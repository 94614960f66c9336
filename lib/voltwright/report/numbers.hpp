#pragma once

#include "voltwright/units/measure.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace voltwright {

/// A measure as the plain number that a JSON key's ending asks for: `_V`, `_A`, `_mohm`, `_percent` … Empty when the key
/// names no unit that the measure has.
std::optional<double> number_for(std::string_view json_key, const Measure& measure);

/// A key for a quantity of any kind, with its unit: `found` is `found_A`, `found_V`, `found_s` … Temperatures in °C, rises
/// in K, shares in per cent, times in seconds, I²t in A²s. Throws std::logic_error for one that no answer has yet.
std::string key_for(std::string_view name, const Measure& measure);

}  // namespace voltwright

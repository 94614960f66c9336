#pragma once

#include "voltwright/units/measure.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// A measure as the plain number that a JSON key's ending asks for: `_V`, `_A`, `_mohm`, `_percent` … Empty when the key
/// names no unit that the measure has.
std::optional<double> number_for(std::string_view json_key, const Measure& measure);

}  // namespace voltwright

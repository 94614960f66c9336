#pragma once

#include "voltwright/units/dimension.hpp"

#include <string>
#include <string_view>

/// What a profile's texts look like, as patterns of a JSON Schema.
namespace voltwright::pattern {

/// A unit or a word: signs taken literally, letters in either case.
std::string unit(std::string_view printed);

/// Number and unit, perhaps with a half width; the unit may stand behind the number, or only at the end.
std::string quantity(Dimension dimension);

/// Of a meter: a share of the reading, a fixed part, or both.
std::string accuracy(Dimension fixed);

/// A conductor's size: AWG, mm², or a trade size.
std::string gauge();
std::string stud();

std::string time_of_day();
/// "08:30-10:00"
std::string window();
/// A day or a range of days.
std::string days();

/// All of a text.
std::string whole(const std::string& pattern);

}  // namespace voltwright::pattern

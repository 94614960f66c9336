#pragma once

#include "voltwright/units/quantities.hpp"

#include <string>

namespace voltwright {

inline constexpr int minutes_in_a_day = 24 * 60;

/// A moment of a trip: day from 1, and the clock.
struct Moment {
    int day;
    Duration clock;  ///< since midnight; 24 hours at the end of the last day
};

/// From the time since the midnight before day 1.
Moment moment(Duration since_first_midnight);

/// "08:30"; "24:00" at the end of a day
std::string clock_of(Duration since_midnight);
/// "day 3 at 08:30", "the end of day 7"
std::string show(const Moment& moment);
/// "on day 3 at 08:30", "at the end of day 7"
std::string when(const Moment& moment);

}  // namespace voltwright

#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

#include <vector>

namespace voltwright {

/// How long the trip is, how warm it is, and when the engine runs. One member a key; what each means, its range and its default stand in its row.
struct TripKeys {
    Given<int> days;
    Given<Spread<Temperature>> low, high;
    Given<std::vector<ClockWindow>> drives;
    Given<CalendarDate> start;
    Given<Spread<Angle>> latitude;
    Given<Spread<Ratio>> clearness;
    Given<int> dull_days;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow trip_section();

}  // namespace voltwright

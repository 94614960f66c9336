#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

#include <vector>

namespace voltwright {

/// Days of the trip that are unlike the others. One member a key; what each means, its range and its default stand in its row.
struct DayKeys {
    Given<TripDays> on;
    Given<std::vector<ClockWindow>> drives;
    Given<Spread<Temperature>> low, high;
    Given<Spread<Ratio>> clearness;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow day_section();

}  // namespace voltwright

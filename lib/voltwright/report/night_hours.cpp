#include "voltwright/report/night_hours.hpp"

#include "voltwright/energy/weather.hpp"

#include <cmath>

namespace voltwright {

namespace {

/// By the clock, on a day of the trip.
struct Daylight {
    Duration from, to;
};

Daylight daylight(int day, const std::optional<DaySun>& first_day) {
    if (!first_day) return {usual_sunrise, usual_sunset};
    const DaySun sun = later_day(*first_day, day - 1);
    return {sunrise(sun), sunset_at(sun)};
}

Duration midnight_before(int day) { return whole_day * static_cast<double>(day - 1); }

}  // namespace

Night night_before(int day, const std::optional<DaySun>& first_day) {
    return {midnight_before(day - 1) + daylight(day - 1, first_day).to,
            midnight_before(day) + daylight(day, first_day).from};
}

bool dark(Duration time, const std::optional<DaySun>& first_day) {
    const int day = static_cast<int>(std::floor(in_ratio(time / whole_day))) + 1;
    const Duration clock = time - midnight_before(day);
    const Daylight light = daylight(day, first_day);
    return clock < light.from || clock >= light.to;
}

}  // namespace voltwright

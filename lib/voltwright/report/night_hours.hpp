#pragma once

#include "voltwright/energy/sun.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>

/// When it is dark, for charts: by the sun where place and date are known, else from 18:00 to 06:00.
namespace voltwright {

/// Since the midnight before the trip's first day. Where the sun does not set they are equal.
struct Night {
    Duration dusk, dawn;
};

/// The night that ends on a day of the trip, counted from 1. `first_day`: the sun of the trip's first day.
Night night_before(int day, const std::optional<DaySun>& first_day);

bool dark(Duration time, const std::optional<DaySun>& first_day);

}  // namespace voltwright

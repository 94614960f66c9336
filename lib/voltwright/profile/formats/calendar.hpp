#pragma once

#include "voltwright/profile/format.hpp"

#include <string>

namespace voltwright {

/// A TOML date, or one as text: 2026-09-14.
template <>
struct Format<CalendarDate> {
    static bool read(const Entry& entry, const std::string& path, CalendarDate& value, Faults& faults);
    static std::string write(const CalendarDate& value);
    static Checked measures(const CalendarDate& value);
    static Shape shape();
};

/// Days of the trip, counted from 1: "2-4", 3, or a list that rises.
template <>
struct Format<TripDays> {
    static bool read(const Entry& entry, const std::string& path, TripDays& value, Faults& faults);
    static std::string write(const TripDays& value);
    static Checked measures(const TripDays& value);
    static Shape shape();
};

}  // namespace voltwright

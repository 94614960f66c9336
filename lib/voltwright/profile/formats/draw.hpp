#pragma once

#include "voltwright/profile/format.hpp"

#include <string>

namespace voltwright {

/// What a load draws: a power, a current or a resistance.
template <>
struct Format<Draw> {
    static bool read(const Entry& entry, const std::string& path, Draw& value, Faults& faults);
    static std::string write(const Draw& value);
    static Checked measures(const Draw& value);
    static Shape shape();
};

/// What a fridge takes in a day: ampere-hours, or watt-hours.
template <>
struct Format<DailyUse> {
    static bool read(const Entry& entry, const std::string& path, DailyUse& value, Faults& faults);
    static std::string write(const DailyUse& value);
    static Checked measures(const DailyUse& value);
    static Shape shape();
};

}  // namespace voltwright

#pragma once

#include "voltwright/profile/format.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// "18:30": minutes of 24 hours.
template <>
struct Format<ClockTime> {
    static bool read(const Entry& entry, const std::string& path, ClockTime& value, Faults& faults);
    static std::string write(const ClockTime& value);
    static Checked measures(const ClockTime& value);
    static Shape shape();
};

/// "18:30-22:00", a list of such, or "none".
template <>
struct Format<std::vector<ClockWindow>> {
    static bool read(const Entry& entry, const std::string& path, std::vector<ClockWindow>& value, Faults& faults);
    static std::string write(const std::vector<ClockWindow>& value);
    static Checked measures(const std::vector<ClockWindow>& value);
    static Shape shape();
};

}  // namespace voltwright

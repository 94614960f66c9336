#pragma once

#include "voltwright/profile/format.hpp"

#include <string>

namespace voltwright {

/// A place, a temperature, or places with their lengths one after the other.
template <>
struct Format<Way> {
    static bool read(const Entry& entry, const std::string& path, Way& value, Faults& faults);
    static std::string write(const Way& value);
    static Checked measures(const Way& value);
    static Shape shape();
    static void check(const Way& value, const std::string& path, Faults& faults);
};

}  // namespace voltwright

#pragma once

#include "voltwright/profile/format.hpp"

#include <string>

namespace voltwright {

/// A place of the surroundings table, or a temperature.
template <>
struct Format<Somewhere> {
    static bool read(const Entry& entry, const std::string& path, Somewhere& value, Faults& faults);
    static std::string write(const Somewhere& value);
    static Checked measures(const Somewhere& value);
    static Shape shape();
};

namespace formats {

/// Of a place by its name alone.
Shape place_shape();

}  // namespace formats

}  // namespace voltwright

#pragma once

#include "voltwright/profile/format.hpp"

#include <string>

namespace voltwright {

/// "0.5 % + 20 mV": a share of the reading, a fixed part, or both.
template <>
struct Format<Accuracy<Voltage>> {
    static bool read(const Entry& entry, const std::string& path, Accuracy<Voltage>& value, Faults& faults);
    static std::string write(const Accuracy<Voltage>& value);
    static Checked measures(const Accuracy<Voltage>& value);
    static Shape shape();
};

/// "3 % + 0.2 A".
template <>
struct Format<Accuracy<Current>> {
    static bool read(const Entry& entry, const std::string& path, Accuracy<Current>& value, Faults& faults);
    static std::string write(const Accuracy<Current>& value);
    static Checked measures(const Accuracy<Current>& value);
    static Shape shape();
};

}  // namespace voltwright

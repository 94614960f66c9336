#pragma once

#include "voltwright/profile/format.hpp"

#include <string>

namespace voltwright {

/// "8 AWG", "10 mm2", "6 mm auto".
template <>
struct Format<Gauge> {
    static bool read(const Entry& entry, const std::string& path, Gauge& value, Faults& faults);
    static std::string write(const Gauge& value);
    static Checked measures(const Gauge& value);
    static Shape shape();
};

/// "105 degC", "105 degC xlpe".
template <>
struct Format<Insulation> {
    static bool read(const Entry& entry, const std::string& path, Insulation& value, Faults& faults);
    static std::string write(const Insulation& value);
    static Checked measures(const Insulation& value);
    static Shape shape();
};

/// "awg", "metric", or a list of sizes.
template <>
struct Format<SizesChoice> {
    static bool read(const Entry& entry, const std::string& path, SizesChoice& value, Faults& faults);
    static std::string write(const SizesChoice& value);
    static Checked measures(const SizesChoice& value);
    static Shape shape();
};

}  // namespace voltwright

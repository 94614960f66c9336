#pragma once

#include "voltwright/profile/format.hpp"

#include <string>

namespace voltwright {

/// The thread of a terminal or its diameter: "M8", "8 mm", "5/16 in".
template <>
struct Format<Stud> {
    static bool read(const Entry& entry, const std::string& path, Stud& value, Faults& faults);
    static std::string write(const Stud& value);
    static Checked measures(const Stud& value);
    static Shape shape();
};

}  // namespace voltwright

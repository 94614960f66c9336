#pragma once

#include "voltwright/profile/format.hpp"

#include <string>

namespace voltwright {

/// "cable", "body", "frame", or the measured resistance of the whole return.
template <>
struct Format<ReturnPath> {
    static bool read(const Entry& entry, const std::string& path, ReturnPath& value, Faults& faults);
    static std::string write(const ReturnPath& value);
    static Checked measures(const ReturnPath& value);
    static Shape shape();
};

}  // namespace voltwright

#pragma once

#include "voltwright/profile/format.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// Joints by their names in the joint table, or by measured resistance.
template <>
struct Format<std::vector<JointChoice>> {
    static bool read(const Entry& entry, const std::string& path, std::vector<JointChoice>& value, Faults& faults);
    static std::string write(const std::vector<JointChoice>& value);
    static Checked measures(const std::vector<JointChoice>& value);
    static Shape shape();
};

}  // namespace voltwright

#pragma once

#include "voltwright/profile/format.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// A whole number.
template <>
struct Format<int> {
    static bool read(const Entry& entry, const std::string& path, int& value, Faults& faults);
    static std::string write(const int& value);
    static Checked measures(const int& value);
    static Shape shape();
};

/// `true` or `false`.
template <>
struct Format<bool> {
    static bool read(const Entry& entry, const std::string& path, bool& value, Faults& faults);
    static std::string write(const bool& value);
    static Checked measures(const bool& value);
    static Shape shape();
};

/// A text of up to 80 characters, each of which can be seen.
template <>
struct Format<std::string> {
    static bool read(const Entry& entry, const std::string& path, std::string& value, Faults& faults);
    static std::string write(const std::string& value);
    static Checked measures(const std::string& value);
    static Shape shape();
};

/// A text, or a list of them.
template <>
struct Format<std::vector<std::string>> {
    static bool read(const Entry& entry, const std::string& path, std::vector<std::string>& value, Faults& faults);
    static std::string write(const std::vector<std::string>& value);
    static Checked measures(const std::vector<std::string>& value);
    static Shape shape();
};

}  // namespace voltwright

#pragma once

#include "voltwright/profile/amount.hpp"
#include "voltwright/profile/entry.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/shape.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// The plain quantities and counts of a value, each with its place in it: nothing, `[0]` or `[0].length`.
struct CheckedValue {
    Amount value;
    std::string at = {};
};
using Checked = std::vector<CheckedValue>;

/// How a type of value is written in a profile. Each has
///
///     static bool read(const Entry& entry, const std::string& path, T& value, Faults& faults);
///     static std::string write(const T& value);
///     static Checked measures(const T& value);
///     static Shape shape();
///
/// `read` reads an entry, or adds a fault and answers false. `write` gives the text of a TOML value that reads back as the
/// same. `measures` lists the plain quantities and counts in a value, for the ranges of its key to be checked. `shape` tells
/// people and editors what it looks like. A value that has sections of keys inside adds
///
///     static void check(const T& value, const std::string& path, Faults& faults);
///     static void complete(T& value, const Profile& profile, const Tables& tables);
///
/// which check these by their own rows, and fill in their defaults.
template <class T>
struct Format;

}  // namespace voltwright

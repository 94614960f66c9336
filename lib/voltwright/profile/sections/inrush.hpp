#pragma once

#include "voltwright/profile/format.hpp"
#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

#include <string>

namespace voltwright {

/// A short current on starting.
struct InrushKeys {
    Given<Spread<Current>> current;
    Given<Spread<Duration>> time;
};

struct Profile;
struct Tables;

/// "a current and its time": `{ current = "20 A", time = "0.2 s" }`.
template <>
struct Format<InrushKeys> {
    static bool read(const Entry& entry, const std::string& path, InrushKeys& value, Faults& faults);
    static std::string write(const InrushKeys& value);
    static Checked measures(const InrushKeys& value);
    static Shape shape();
    static void check(const InrushKeys& value, const std::string& path, Faults& faults);
};

}  // namespace voltwright

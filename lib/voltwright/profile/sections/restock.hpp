#pragma once

#include "voltwright/profile/format.hpp"
#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// Warm things put into the fridge.
struct RestockKeys {
    Given<TripDays> on;
    Given<ClockTime> at;
    Given<Spread<Mass>> mass;
    Given<Spread<Temperature>> from;
};

struct Profile;
struct Tables;

/// A list of them.
template <>
struct Format<std::vector<RestockKeys>> {
    static bool read(const Entry& entry, const std::string& path, std::vector<RestockKeys>& value, Faults& faults);
    static std::string write(const std::vector<RestockKeys>& value);
    static Checked measures(const std::vector<RestockKeys>& value);
    static Shape shape();
    static void check(const std::vector<RestockKeys>& value, const std::string& path, Faults& faults);
};

}  // namespace voltwright

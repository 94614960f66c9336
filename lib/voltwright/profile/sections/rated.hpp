#pragma once

#include "voltwright/profile/format.hpp"
#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// What a fridge was measured or rated to take at one outside temperature.
struct RatedKeys {
    Given<Spread<Temperature>> around, inside, freezer;
    Given<DailyUse> a_day;
};

struct Profile;
struct Tables;

/// One or two of them, as a list.
template <>
struct Format<std::vector<RatedKeys>> {
    static bool read(const Entry& entry, const std::string& path, std::vector<RatedKeys>& value, Faults& faults);
    static std::string write(const std::vector<RatedKeys>& value);
    static Checked measures(const std::vector<RatedKeys>& value);
    static Shape shape();
    static void check(const std::vector<RatedKeys>& value, const std::string& path, Faults& faults);
    static void complete(std::vector<RatedKeys>& value, const Profile& profile, const Tables& tables);
};

}  // namespace voltwright

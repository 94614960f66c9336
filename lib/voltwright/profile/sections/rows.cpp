#include "voltwright/profile/sections/rows.hpp"

#include "voltwright/profile/words.hpp"
#include "voltwright/units/show.hpp"

#include <cstdio>

namespace voltwright::rows {

template <class Q>
Range between(Q low, Q high) {
    return {amount(low), amount(high), false};
}
template <class Q>
Range up_to(Q high) {
    return {amount(Q{}), amount(high), true};
}
template Range between(Current, Current);
template Range between(Voltage, Voltage);
template Range between(Resistance, Resistance);
template Range between(Power, Power);
template Range between(Charge, Charge);
template Range between(Length, Length);
template Range between(Area, Area);
template Range between(Volume, Volume);
template Range between(Duration, Duration);
template Range between(Mass, Mass);
template Range between(Angle, Angle);
template Range between(Ratio, Ratio);
template Range between(Temperature, Temperature);
template Range up_to(Current);
template Range up_to(Voltage);
template Range up_to(Resistance);
template Range up_to(Power);
template Range up_to(Charge);
template Range up_to(Length);
template Range up_to(Area);
template Range up_to(Volume);
template Range up_to(Duration);
template Range up_to(Mass);
template Range up_to(Angle);
template Range up_to(Ratio);
template Range up_to(Energy);
Range counts(int low, int high) { return {amount(low), amount(high), false}; }

Range outside_air() { return between(celsius(-60.0), celsius(60.0)); }
Range surroundings() { return between(celsius(-60.0), celsius(150.0)); }
Range share() { return between(ratio(0.0), percent(100.0)); }
Range efficiency() { return between(percent(50.0), percent(100.0)); }
Range cut() { return between(volts(8.0), volts(15.0)); }
Range fuse_rating() { return up_to(amperes(1000.0)); }
Range stud_diameter() { return between(millimetres(3.0), millimetres(20.0)); }
Range joint_resistance() { return between(ohms(0.0), ohms(1.0)); }

Usual usual(const char* written) { return {std::string_view(written)}; }
Usual usual(int number) { return {number}; }
Usual usual(bool truth) { return {truth}; }

Entry rounded(double number, std::string_view unit) {
    char digits[32];
    std::snprintf(digits, sizeof digits, "%.6g", number);
    return text_entry(digits + (" " + std::string(unit)));
}

bool smart_alternator(const Profile& profile) { return profile.starter.alternator == Alternator::smart; }

const ChemistryRow* chemistry_of(const Profile& profile, const Tables& tables) {
    return profile.battery.chemistry ? find_chemistry(tables, show(*profile.battery.chemistry)) : nullptr;
}

Entry written_amount(Voltage value) { return text_entry(write(Spread<Voltage>{value})); }
Entry written_amount(Ratio value) { return text_entry(write(Spread<Ratio>{value})); }

void check_drives(const std::optional<std::vector<ClockWindow>>& drives, const std::string& path, Faults& faults) {
    for (std::size_t i = 0; i < drives->size(); ++i) {
        const ClockWindow& drive = (*drives)[i];
        if (drive.to.minutes < drive.from.minutes) {
            faults.push_back({path_to(path, i), "this drive ends before it starts",
                              "a drive over midnight is two: \"22:00-24:00\" and \"00:00-02:00\""});
            continue;
        }
        const auto overlaps = [&](const ClockWindow& other) {
            return drive.from.minutes < other.to.minutes && other.from.minutes < drive.to.minutes &&
                   other.from.minutes <= other.to.minutes;
        };
        if (std::any_of(drives->begin(), drives->begin() + static_cast<std::ptrdiff_t>(i), overlaps))
            faults.push_back({path_to(path, i), "this drive overlaps another of the same day", "write the two as one"});
    }
}

}  // namespace voltwright::rows

#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

namespace voltwright {

/// The DC-DC charger between the two batteries, or the relay. One member a key; what each means, its range and its default
/// stand in its row.
struct ChargerKeys {
    Given<Coupling> kind;
    Given<Spread<Current>> output;
    Given<Spread<Ratio>> efficiency;
    Given<Spread<Voltage>> input_on, input_off;
    Given<Wake> wake;
    Given<Spread<Current>> input_limit;
    Given<Spread<Voltage>> absorption, float_;
    Given<bool> temperature_sensor;
    Given<Spread<Temperature>> full_output_to;
    Given<Spread<Ratio>> derate;
    Given<Spread<Temperature>> off_above;
    Given<Spread<Current>> fuse_max;
    Given<Spread<Voltage>> closes_at, opens_at;
    Given<Spread<Current>> rating;
    Given<Gauge> terminal;
    Given<Stud> stud;
    Given<Somewhere> where;
};

struct Profile;

/// Whether nothing charges while driving although nobody says so: a profile with runs or a panel, no key of [charger], and
/// no run that leads to a charger or on from one.
bool charger_left_out(const Profile& given);

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow charger_section();

}  // namespace voltwright

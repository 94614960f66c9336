#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

namespace voltwright {

/// The house battery, or equal ones in parallel. One member a key; what each means, its range and its default stand in its row.
struct BatteryKeys {
    Given<Chemistry> chemistry;
    Given<Spread<Charge>> capacity;
    Given<int> count;
    Given<Spread<Ratio>> depth_limit;
    Given<Spread<Current>> charge_limit, discharge_limit;
    Given<Spread<Ratio>> start_soc, health;
    Given<Spread<Resistance>> internal_resistance;
    Given<Spread<Temperature>> charge_above, charge_below;
    Given<Spread<Power>> heater;
    Given<PostFuse> main_fuse;
    Given<bool> have_main_fuse;
    Given<Stud> stud;
    Given<Somewhere> where;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow battery_section();

}  // namespace voltwright

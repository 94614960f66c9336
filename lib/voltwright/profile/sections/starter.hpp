#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

namespace voltwright {

/// The vehicle's own battery and its alternator. One member a key; what each means, its range and its default stand in its row.
struct StarterKeys {
    Given<Alternator> alternator;
    Given<Spread<Voltage>> running, lowest_running;
    Given<Spread<Charge>> capacity;
    Given<Spread<Current>> cold_cranking;
    Given<Spread<Resistance>> internal_resistance;
    Given<Spread<Current>> spare_current;
    Given<PostFuse> main_fuse;
    Given<bool> have_main_fuse;
    Given<Stud> stud;
    Given<Somewhere> where;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow starter_section();

}  // namespace voltwright

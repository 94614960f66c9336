#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

namespace voltwright {

/// An inverter for mains appliances. One member a key; what each means, its range and its default stand in its row.
struct InverterKeys {
    Given<Spread<Power>> output;
    Given<Spread<Ratio>> efficiency;
    Given<Spread<Power>> standby;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow inverter_section();

}  // namespace voltwright

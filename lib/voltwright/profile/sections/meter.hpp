#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

namespace voltwright {

/// How true the meter is that the readings were taken with. One member a key; what each means, its range and its default stand in its row.
struct MeterKeys {
    Given<Accuracy<Voltage>> voltage, millivolts;
    Given<Accuracy<Current>> current;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow meter_section();

}  // namespace voltwright

#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

namespace voltwright {

/// A solar panel and its regulator. One member a key; what each means, its range and its default stand in its row.
struct SolarKeys {
    Given<Spread<Power>> panel;
    Given<Spread<Angle>> tilt, azimuth;
    Given<Regulator> regulator;
    Given<Spread<Ratio>> shade;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow solar_section();

}  // namespace voltwright

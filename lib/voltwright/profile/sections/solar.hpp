#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

namespace voltwright {

/// A solar panel and its regulator. One member a key; what each means, its range and its default stand in its row.
struct SolarKeys {
    Given<Spread<Power>> panel;
    Given<int> series, parallel;
    Given<Spread<Current>> short_circuit;
    Given<Spread<Voltage>> most_power_voltage, open_circuit;
    Given<Spread<Angle>> tilt, azimuth;
    Given<Regulator> regulator;
    Given<Spread<Ratio>> shade;
    Given<Spread<Current>> output;
    Given<Spread<Current>> fuse_max;
    Given<Gauge> terminal;
    Given<Somewhere> where;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow solar_section();

}  // namespace voltwright

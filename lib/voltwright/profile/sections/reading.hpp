#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// What was measured, for the diagnosis. One member a key; what each means, its range and its default stand in its row.
struct ReadingKeys {
    Given<std::vector<std::string>> across;
    Given<std::string> through;
    Given<std::vector<std::string>> with;
    Given<Engine> engine;
    Given<ChargerSwitch> charger;
    Given<Spread<Voltage>> voltage;
    Given<Spread<Current>> current;
    Given<std::string> when;
    Given<Spread<Charge>> counted;
    Given<Spread<Duration>> time, on, off, ran;
    Given<Spread<Voltage>> stopped;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow reading_section();

}  // namespace voltwright

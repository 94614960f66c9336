#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/sections/inrush.hpp"
#include "voltwright/profile/values.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// What draws current, beside fridges. One member a key; what each means, its range and its default stand in its row.
struct LoadKeys {
    Given<std::string> name;
    Given<Draw> draw;
    Given<std::vector<ClockWindow>> hours;
    Given<Spread<Ratio>> duty;
    Given<Spread<Duration>> runs, every;
    Given<bool> essential;
    Given<std::string> through;
    Given<Spread<Voltage>> cut_out, cut_in;
    Given<InrushKeys> inrush;
    Given<Somewhere> where;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow load_section();

}  // namespace voltwright

#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/sections/inrush.hpp"
#include "voltwright/profile/sections/rated.hpp"
#include "voltwright/profile/sections/restock.hpp"
#include "voltwright/profile/values.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// A compressor fridge or freezer. One member a key; what each means, its range and its default stand in its row.
struct FridgeKeys {
    Given<std::string> name;
    Given<Spread<Power>> draw;
    Given<std::vector<RatedKeys>> rated;
    Given<Spread<Voltage>> counted_at;
    Given<Spread<Volume>> litres;
    Given<Spread<Temperature>> inside;
    Given<Spread<Temperature>> freezer;
    Given<Spread<Ratio>> freezer_share;
    Given<int> opened;
    Given<bool> essential;
    Given<Spread<Voltage>> cut_out, cut_in;
    Given<Spread<Current>> fuse_max;
    Given<InrushKeys> inrush;
    Given<Somewhere> where;
    Given<std::vector<RestockKeys>> restock;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow fridge_section();

}  // namespace voltwright

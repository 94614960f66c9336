#pragma once

#include "voltwright/units/gauge.hpp"
#include "voltwright/units/money.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

enum class PartKind {
    cable,
    lug,
    battery_clamp,
    plug,
    part,  ///< a switch, a relay, a breaker: whatever else sits in a run
    fuse,
    fuse_holder,
    fuse_block,
    conduit,
    grommet,
    heat_shrink,
    clip,
    label,
};
std::string_view show(PartKind kind);
std::span<const std::string_view> part_kinds();

/// One line of the list.
struct Part {
    PartKind kind;
    std::string what;                            ///< its article: "cable", "ring lug", "two-pole plug 50 A"
    std::string colour = {};                     ///< of a cable: red or black
    std::optional<Gauge> size = {};              ///< of the conductor it is for
    std::optional<Temperature> insulation = {};  ///< of a cable: what it must be rated for at least
    std::optional<Current> rating = {};
    std::optional<Current> at_least = {};  ///< of a switch or relay: the least that has to be printed on it
    std::string family = {};               ///< of a fuse, its holder or its block
    bool in_line = false;                  ///< of a fuse holder: it sits in the cable, on leads of its own
    std::optional<Length> stud = {};       ///< of a lug: the stud its hole is for; empty where that is not known
    std::optional<Length> bore = {};       ///< of a tube, a grommet or a clip: its inner diameter
    std::optional<Length> length = {};     ///< to buy, the allowance in it
    int count = 1;                         ///< pieces; of what is sold by length: 1
    int spare = 0;                         ///< pieces beyond what is fitted, in `count`
    std::optional<Mass> mass = {};         ///< of all of it, where it is known
    std::vector<std::string> runs = {};    ///< that it is for
    std::optional<Money> price = {};       ///< of one piece, or of a metre; of a pack or a roll where there is one
    std::optional<int> pack = {};          ///< pieces that are sold together
    std::optional<Length> roll = {};       ///< length that is sold in one
    std::optional<Money> cost = {};        ///< of the line
};

/// Whether two parts are one line of the list: the same thing, whatever it is for and however much of it.
bool same_line(const Part& a, const Part& b);

}  // namespace voltwright

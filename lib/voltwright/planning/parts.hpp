#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/units/money.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>
#include <string>
#include <vector>

/// What to buy: everything that the plan's runs are made of, counted.
namespace voltwright {

enum class PartKind {
    cable,
    lug,
    battery_clamp,
    plug,
    part,  ///< a switch, a relay, a breaker: whatever else sits in a run
    fuse,
    fuse_holder,
    conduit,
    grommet,
    heat_shrink,
    clip,
    label,
};
std::string_view show(PartKind kind);

/// One line of the list.
struct Part {
    PartKind kind;
    std::string what;                  ///< in the trade's words: "cable", "ring lug", "two-pole plug 50 A"
    std::string colour = {};           ///< of a cable: red or black
    std::optional<Gauge> size = {};    ///< of the conductor it is for
    std::optional<Current> rating = {};
    std::string stud = {};             ///< of a lug: "8 mm"
    std::optional<Length> bore = {};   ///< of a tube, a grommet or a clip: its inner diameter
    std::optional<Length> length = {}; ///< to buy, the allowance in it
    int count = 1;                     ///< pieces; of what is sold by length: 1
    int spare = 0;                     ///< pieces beyond what is fitted, in `count`
    std::optional<Mass> mass = {};     ///< of all of it, where it is known
    std::vector<std::string> runs;     ///< that it is for
    std::optional<Money> price = {};   ///< of one piece, or of a metre
    std::optional<Money> cost = {};    ///< of the line
};

struct PartsList {
    Ratio allowance;                   ///< added to every length
    std::vector<Part> parts;
    std::string currency = {};         ///< empty: no prices were given
    std::optional<Money> total = {};   ///< of what has a price
    std::optional<Money> budget = {};
    std::vector<std::string> unpriced = {};   ///< what has no price, in words
    std::vector<std::string> not_listed = {}; ///< what no list can know, in plain words

    [[nodiscard]] bool within_budget() const { return !budget || !total || *total <= *budget; }
};

}  // namespace voltwright

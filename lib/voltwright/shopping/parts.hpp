#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/units/money.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
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
    std::string what;                            ///< in the trade's words: "cable", "ring lug", "two-pole plug 50 A"
    std::string colour = {};                     ///< of a cable: red or black
    std::optional<Gauge> size = {};              ///< of the conductor it is for
    std::optional<Temperature> insulation = {};  ///< of a cable: what it must be rated for at least
    std::optional<Current> rating = {};
    std::optional<Current> at_least = {};  ///< of a switch or relay: the least that has to be printed on it
    std::string family = {};               ///< of a fuse, its holder or its block
    std::string stud = {};                 ///< of a lug: "8 mm"; empty where it is not known
    std::optional<Length> bore = {};       ///< of a tube, a grommet or a clip: its inner diameter
    std::optional<Length> length = {};     ///< to buy, the allowance in it
    int count = 1;                         ///< pieces; of what is sold by length: 1
    int spare = 0;                         ///< pieces beyond what is fitted, in `count`
    std::optional<Mass> mass = {};         ///< of all of it, where it is known
    std::vector<std::string> runs;         ///< that it is for
    std::optional<Money> price = {};       ///< of one piece, or of a metre; of a pack or a roll where `sold` says so
    std::string sold = {};                 ///< "pack of 10", "roll of 10 m"; empty: by the piece or the metre
    std::optional<Money> cost = {};        ///< of the line
};

/// "cable 6 AWG, 105 degC, red", "ring lug 6 AWG, hole for 8 mm"
std::string in_words(const Part& part);

struct PartsList {
    std::string title = {};
    Ratio allowance;  ///< added to every length
    std::vector<Part> parts;
    std::string currency = {};        ///< empty: no prices were given
    int decimals = 2;                 ///< of the currency
    std::optional<Money> total = {};  ///< of what has a price
    std::optional<Money> budget = {};
    std::vector<std::string> assumed = {};     ///< runs that the profile does not describe
    std::vector<std::string> owned = {};       ///< what is there already and not bought, in words
    std::vector<std::string> unpriced = {};    ///< what has no price, in words
    std::vector<std::string> to_look = {};     ///< what has to be looked at before buying, in plain words
    std::vector<std::string> not_listed = {};  ///< what no list can know, in plain words

    /// Empty where there is nothing to judge: no budget, no sum, or a sum below it to which what has no price comes.
    [[nodiscard]] std::optional<bool> within_budget() const {
        if (!budget || !total) return {};
        if (*total > *budget) return false;
        return unpriced.empty() ? std::optional(true) : std::nullopt;
    }
};

/// The cable of a run in one size, as long as it is laid: red out, black back or from the appliance to the body.
std::vector<Part> cables_of(const SystemRun& run, Gauge size);

enum class LugsAt {
    end,          ///< of the run
    fuse,         ///< on the studs of one that is bolted
    earth_point,  ///< on the body
    between,      ///< somewhere in the run
};

/// Ring lugs of one size at one place of a run.
struct PlacedLugs {
    LugsAt at;
    std::optional<Place> end;  ///< of a run: where
    Gauge size;
    int count;
};

/// The ring lugs of a run in one size: those of its joints, on the body, and on the studs of bolted fuses that are to be
/// bought.
std::vector<PlacedLugs> lugs_of(const SystemRun& run, const Candidate& candidate,
                                const Tables& tables = built_in_tables());

/// The line of the list that buys them, with the hole for the stud where the profile names it.
Part lug_for(const System& system, const PlacedLugs& lugs, const Tables& tables = built_in_tables());

/// What has to be bought for a plan, with a price where the list has one.
///
/// Counted by common practice, where no standard says more: as many spare fuses of a kind as are fitted, two at most; a
/// lug on each stud of a bolt-down fuse; half a metre of black cable from an appliance to the body; two holes in a run that
/// passes from one place to another; a label at each end of each cable; one tube a run; half a metre each way between two
/// batteries of a bank, and a fuse on each of them. Where several runs get their blade fuses at one place that is neither a
/// battery nor the charger, that is a fuse block with as many ways; other blade fuses sit in holders in the cable.
PartsList parts_list(const System& system, const Plan& plan, const PriceList* prices = nullptr,
                     Ratio allowance = percent(10), const Tables& tables = built_in_tables());

}  // namespace voltwright

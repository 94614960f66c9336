#pragma once

#include "voltwright/planning/parts.hpp"

#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// What a shop asks for one thing. What a row does not say, it does not ask: a lug of any stud.
struct Price {
    PartKind kind = PartKind::cable;
    std::optional<std::string> name;  ///< of a plug or another part: "two-pole plug 50 A"
    std::optional<Gauge> size;
    std::optional<Temperature> insulation;  ///< of a cable; empty: the row prices cable of any class
    std::optional<std::string> colour;
    std::optional<Current> rating;
    std::optional<std::string> family;  ///< of a fuse or its holder, as the family table names it
    std::optional<Length> stud;         ///< of a lug
    std::optional<Length> bore;         ///< of a tube, a grommet, heat-shrink or a clip
    Money price;                        ///< of one piece or of a metre; of a whole pack or roll where there is one
    std::optional<int> pack;            ///< pieces that are sold together
    std::optional<Length> roll;         ///< length that is sold in one
};

/// A price list of the user's own.
struct PriceList {
    std::string currency;
    int decimals = 2;  ///< digits after the point to which a line's cost is rounded
    std::optional<Money> budget;
    std::vector<Price> prices;
};

/// Whether a row speaks of this part.
bool speaks_of(const Price& price, const Part& part);

/// Whether two rows say the same of what they price.
bool same_thing(const Price& a, const Price& b);

/// The row that says most of a part; of those that say as much, the first. nullptr when none speaks of it.
const Price* find_price(const PriceList& list, const Part& part);

/// What a line costs: whole packs and rolls; a length to the millimetre, rounded half up to the currency's decimals.
/// Empty when it is too much to count.
std::optional<Money> cost_of(const Price& price, const Part& part, int decimals);

/// What a run costs in one size: its cable as it is laid, out and back, and its ring lugs where the list prices them. Each
/// line is rounded half up to the currency's decimals; of a roll or a pack what is used of it. Empty for a size whose cable
/// has no price; a way back whose size is given costs what it costs whatever is chosen, and nothing where it has no price.
///
/// Left aside: the allowance, the rest of rolls and packs, tube, heat-shrink, grommets, clips, fuses and their holders.
std::optional<Money> cable_cost(const PriceList& list, const System& system, const SystemRun& run,
                                const Candidate& candidate, const Tables& tables = built_in_tables());

/// Whether what prices that cable is a row for any size, which does not tell a thick one from a thin one.
bool any_size_alike(const PriceList& list, const SystemRun& run, Gauge size);

/// Puts prices, costs, total and budget into a list. Empty `total` when the sum is too much to count.
void put_prices(PartsList& list, const PriceList& prices);

}  // namespace voltwright

#pragma once

#include "voltwright/shopping/parts_list.hpp"

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

/// What a part costs that is used out of a pack or a roll, the rest of it left aside.
std::optional<Money> cost_as_used(const Price& price, const Part& part, int decimals);

/// Puts prices, costs, total and budget into a list. Empty `total` when the sum is too much to count.
void put_prices(PartsList& list, const PriceList& prices);

}  // namespace voltwright

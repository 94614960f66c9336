#include "voltwright/shopping/prices.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

bool same(Length a, Length b) { return abs(a - b) < millimetres(0.01); }

/// How much a row says of its thing.
int words_of(const Price& price) {
    return int{price.name.has_value()} + int{price.size.has_value()} + int{price.insulation.has_value()} +
           int{price.colour.has_value()} + int{price.rating.has_value()} + int{price.family.has_value()} +
           int{price.stud.has_value()} + int{price.bore.has_value()};
}

constexpr std::int64_t millimetres_in_a_metre = 1000;

/// Lengths are counted in whole millimetres: they, and rolls in feet, are exact so.
std::int64_t whole_millimetres(Length length) { return std::llround(in_millimetres(length)); }

/// How many whole packs or rolls hold so much.
std::int64_t packs_for(std::int64_t much, std::int64_t pack) { return (much + pack - 1) / pack; }

}  // namespace

bool speaks_of(const Price& price, const Part& part) {
    if (price.kind != part.kind) return false;
    if (price.name && *price.name != part.what) return false;
    if (price.size && price.size != part.size) return false;
    if (price.insulation && price.insulation != part.insulation) return false;
    if (price.colour && *price.colour != part.colour) return false;
    if (price.rating && price.rating != part.rating && !(part.at_least && *price.rating >= *part.at_least))
        return false;
    if (price.family && *price.family != part.family) return false;
    if (price.stud && !(part.stud && same(*price.stud, *part.stud))) return false;
    return !price.bore || (part.bore && same(*price.bore, *part.bore));
}

bool same_thing(const Price& a, const Price& b) {
    const bool bores = a.bore && b.bore ? same(*a.bore, *b.bore) : a.bore.has_value() == b.bore.has_value();
    return a.kind == b.kind && a.name == b.name && a.size == b.size && a.insulation == b.insulation &&
           a.colour == b.colour && a.rating == b.rating && a.family == b.family && a.stud == b.stud && bores;
}

const Price* find_price(const PriceList& list, const Part& part) {
    const Price* found = nullptr;
    for (const Price& price : list.prices)
        if (speaks_of(price, part) && (!found || words_of(price) > words_of(*found))) found = &price;
    return found;
}

std::optional<Money> cost_as_used(const Price& price, const Part& part, int decimals) {
    if (!part.length) return share_of(price.price, part.count, price.pack.value_or(1), decimals);
    const std::int64_t sold = price.roll ? whole_millimetres(*price.roll) : millimetres_in_a_metre;
    return share_of(price.price, whole_millimetres(*part.length), std::max<std::int64_t>(sold, 1), decimals);
}

std::optional<Money> cost_of(const Price& price, const Part& part, int decimals) {
    if (part.length && !price.roll) return cost_as_used(price, part, decimals);
    const std::int64_t packs = part.length ? packs_for(whole_millimetres(*part.length),
                                                       std::max<std::int64_t>(whole_millimetres(*price.roll), 1))
                                           : packs_for(part.count, price.pack.value_or(1));
    return share_of(price.price, packs, 1, decimals);
}

void put_prices(PartsList& list, const PriceList& prices) {
    list.currency = prices.currency;
    list.decimals = prices.decimals;
    list.budget = prices.budget;
    list.total = Money{};
    for (std::size_t i = 0; i < list.parts.size(); ++i) {
        Part& part = list.parts[i];
        const Price* price = find_price(prices, part);
        if (!price) {
            list.unpriced.push_back(i);
            continue;
        }
        part.price = price->price;
        if (part.length)
            part.roll = price->roll;
        else
            part.pack = price->pack;
        part.cost = cost_of(*price, part, prices.decimals);
        if (list.total && part.cost) list.total = plus(*list.total, *part.cost);
        if (!part.cost) list.total.reset();
    }
}

}  // namespace voltwright

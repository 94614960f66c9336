#include "voltwright/planning/prices.hpp"

#include "voltwright/units/show.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

bool same(Length a, Length b) { return abs(a - b) < millimetres(0.01); }

/// How much a row says of its thing.
int words_of(const Price& price) {
    return int{price.name.has_value()} + int{price.size.has_value()} + int{price.colour.has_value()} +
           int{price.rating.has_value()} + int{price.family.has_value()} + int{price.stud.has_value()} +
           int{price.bore.has_value()};
}

/// Of a length at the price of a metre.
std::optional<Money> as_laid(const Price& price, Length length, int decimals) {
    const double step = std::pow(10.0, 4 - decimals);
    const double metres_or_rolls = length / price.roll.value_or(metres(1));
    const double steps = std::floor(static_cast<double>(price.price.ten_thousandths) * metres_or_rolls / step + 0.5);
    if (!(steps * step < 1e18)) return {};
    return Money{std::llround(steps) * std::llround(step)};
}

}  // namespace

bool speaks_of(const Price& price, const Part& part) {
    if (price.kind != part.kind) return false;
    if (price.name && *price.name != part.what) return false;
    if (price.size && price.size != part.size) return false;
    if (price.colour && *price.colour != part.colour) return false;
    if (price.rating && price.rating != part.rating) return false;
    if (price.family && *price.family != part.family) return false;
    if (price.stud && show(*price.stud) != part.stud) return false;
    return !price.bore || (part.bore && same(*price.bore, *part.bore));
}

bool same_thing(const Price& a, const Price& b) {
    const bool bores = a.bore && b.bore ? same(*a.bore, *b.bore) : a.bore.has_value() == b.bore.has_value();
    return a.kind == b.kind && a.name == b.name && a.size == b.size && a.colour == b.colour && a.rating == b.rating &&
           a.family == b.family && a.stud == b.stud && bores;
}

const Price* find_price(const PriceList& list, const Part& part) {
    const Price* found = nullptr;
    for (const Price& price : list.prices)
        if (speaks_of(price, part) && (!found || words_of(price) > words_of(*found))) found = &price;
    return found;
}

std::int64_t tenths_of_a_metre(Length length) { return std::llround(10.0 * in_metres(length)); }

std::optional<Money> cost_of(const Price& price, const Part& part, int decimals) {
    if (part.length) {
        const std::int64_t tenths = tenths_of_a_metre(*part.length);
        if (!price.roll) return tenths_of(price.price, tenths, decimals);
        // A roll of 25 ft is 7.6 m, not 7.7.
        const std::int64_t roll =
            std::max<std::int64_t>(static_cast<std::int64_t>(std::floor(10.0 * in_metres(*price.roll) + 1e-6)), 1);
        return times(price.price, (tenths + roll - 1) / roll);
    }
    const int pack = price.pack.value_or(1);
    const auto cost = times(price.price, (part.count + pack - 1) / pack);
    return cost ? tenths_of(*cost, 10, decimals) : std::nullopt;
}

std::optional<Money> cable_cost(const PriceList& list, const SystemRun& run, Gauge size) {
    std::optional<Money> sum = Money{};
    for (const Part& cable : cables_of(run, size)) {
        const Price* price = find_price(list, cable);
        if (cable.size != size && !price) continue;
        const auto cost = price ? as_laid(*price, *cable.length, list.decimals) : std::nullopt;
        if (!cost) return {};
        if (sum) sum = plus(*sum, *cost);
    }
    return sum;
}

bool any_size_alike(const PriceList& list, const SystemRun& run, Gauge size) {
    const std::vector<Part> cables = cables_of(run, size);
    return std::any_of(cables.begin(), cables.end(), [&](const Part& cable) {
        const Price* price = cable.size == size ? find_price(list, cable) : nullptr;
        return price && !price->size;
    });
}

void put_prices(PartsList& list, const PriceList& prices) {
    list.currency = prices.currency;
    list.decimals = prices.decimals;
    list.budget = prices.budget;
    list.total = Money{};
    for (Part& part : list.parts) {
        const Price* price = find_price(prices, part);
        if (!price) {
            list.unpriced.push_back(in_words(part));
            continue;
        }
        part.price = price->price;
        if (price->roll && part.length) part.sold = "roll of " + show(*price->roll);
        if (price->pack && !part.length) part.sold = "pack of " + std::to_string(*price->pack);
        part.cost = cost_of(*price, part, prices.decimals);
        if (list.total && part.cost) list.total = plus(*list.total, *part.cost);
        if (!part.cost) list.total.reset();
    }
}

}  // namespace voltwright

#include "voltwright/sizing/fuse.hpp"

#include "voltwright/circuit/fuse_time.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace voltwright {

FuseWindow fuse_window(Current design, Ratio use, Temperature around, PerKelvin rerating_per_kelvin, Current ampacity,
                       std::optional<Current> parts, std::optional<Current> appliance) {
    const TemperatureRise above = std::max(around - celsius(25), kelvins(0));
    const Ratio rerating = std::max(ratio(1.0) - rerating_per_kelvin * above, percent(10));
    Current at_most = ampacity;
    if (parts) at_most = std::min(at_most, *parts);
    if (appliance) at_most = std::min(at_most, *appliance);
    return {design, use,       around, rerating_per_kelvin, rerating, design / (use * rerating), ampacity,
            parts,  appliance, at_most};
}

Cited<Resistance> fuse_link_resistance(const Tables& tables, std::string_view family, Current rating) {
    const FuseRow* below = nullptr;
    const FuseRow* above = nullptr;
    for (const FuseRow& row : tables.fuses) {
        if (row.family != family || !row.cold) continue;
        if (row.rating <= rating && (!below || row.rating > below->rating)) below = &row;
        if (row.rating >= rating && (!above || row.rating < above->rating)) above = &row;
    }
    if (!below && !above) return {Resistance{}, {}};
    if (!below || !above || below == above) {
        const FuseRow& row = below ? *below : *above;
        return {*row.cold * (row.rating / rating), row.source};
    }
    const double slope = std::log(*above->cold / *below->cold) / std::log(above->rating / below->rating);
    return {*below->cold * std::pow(rating / below->rating, slope), below->source};
}

namespace {

FuseWindow window_of(const FuseWish& wish, const Rules& rules, PerKelvin rerating) {
    FuseWindow window =
        fuse_window(wish.design, rules.fuse_use, wish.end.around, rerating, wish.ampacity, wish.parts, wish.appliance);
    window.behind = wish.behind;
    window.at_least = std::max(window.at_least, wish.behind.value_or(Current{}));
    return window;
}

FaultAtFuse fault_at(const FuseWish& wish, Resistance fuse, Cited<Current> breaking_capacity) {
    const Resistance loop = wish.lead + fuse;
    return {wish.lead, fuse, fault_current(wish.end.open_circuit, wish.end.internal.expected, loop),
            fault_current(wish.end.open_circuit, wish.end.internal.low, loop), breaking_capacity};
}

/// What a holder of this family in the cable may carry; empty for what is bolted down.
std::optional<PartRating> in_line_holder(const FuseFamilyRow& family, const FuseWish& wish) {
    if (!family.in_line_limit) return {};
    return part_rating("in-line " + std::string(family.family) + " fuse holder", *family.in_line_limit,
                       family.in_line_area, wish.conductor, wish.end.around);
}

/// A fuse of this family and rating in its place, whether or not it is right there.
FuseFit fit_of(const FuseFamilyRow& family, Current rating, const FuseWish& wish, const Rules& rules,
               const Tables& tables) {
    const FuseWindow window = window_of(wish, rules, family.rerating);
    const Cited<Resistance> link = fuse_link_resistance(tables, family.family, rating);
    // A link whose resistance nobody printed is nothing to a fault, and to a drop as much as the worst of its fellows.
    Cited<Resistance> for_drop = link;
    for (const FuseFamilyRow& other : tables.fuse_families) {
        if (link.value > Resistance{}) break;
        const Cited<Resistance> known = fuse_link_resistance(tables, other.family, rating);
        if (known.value > for_drop.value) for_drop = known;
    }
    const BreakingCapacityRow* breaking = find_breaking_capacity(tables, family.family, wish.end.open_circuit);
    const Cited<Current> capacity = breaking ? Cited<Current>{breaking->breaking_capacity, breaking->source}
                                             : Cited<Current>{Current{}, family.source};
    return {.at = wish.end.at,
            .family = std::string(family.family),
            .standard = std::string(family.standard),
            .form = family.form,
            .rating = rating,
            .window = window,
            .fault = fault_at(wish, link.value + family.holder, capacity),
            .link = for_drop,
            .holder = {family.holder, family.source},
            .in_line = in_line_holder(family, wish),
            .in_window = rating >= window.at_least && rating <= window.at_most};
}

/// Can it be asked to interrupt what a dead short would draw?
bool breaks_enough(const FuseFit& fit) {
    return fit.fault.expected.current <= breaking_tolerance * fit.fault.breaking_capacity.value;
}

/// The least rating of a family that there is in a window, or the largest.
template <class Fuses>
std::optional<Current> rating_in(const FuseWindow& window, const Fuses& fuses, std::string_view family,
                                 const FuseWish& wish, const Tables& tables) {
    const bool largest = wish.largest;
    std::optional<Current> found;
    for (const auto& fuse : fuses) {
        if (fuse.rating < window.at_least || fuse.rating > window.at_most || fuse.family != family) continue;
        if (!std::all_of(wish.starting.begin(), wish.starting.end(), [&](const ShortCurrent& starting) {
                return rides_through(tables, family, fuse.rating, starting.current, starting.time);
            }))
            continue;
        if (!found || (largest ? fuse.rating > *found : fuse.rating < *found)) found = fuse.rating;
    }
    return found;
}

/// Made for the highest voltage of the system? Of a family without a figure nothing is known against it.
bool made_for(const Tables& tables, const FuseFamilyRow& family, Voltage highest) {
    std::optional<Voltage> most;
    for (const BreakingCapacityRow& row : tables.breaking_capacities)
        if (row.family == family.family) most = std::max(most.value_or(row.voltage), row.voltage);
    return !most || *most >= highest;
}

/// Without a shelf the usual families come into question, and no in-line holder beyond what it may carry there.
bool comes_into_question(const FuseFamilyRow& family, const FuseWish& wish, const Rules& rules, const Tables& tables) {
    if (!made_for(tables, family, wish.end.highest)) return false;
    if (rules.shelf) return true;
    const auto in_line = in_line_holder(family, wish);
    return family.usual && !(in_line && wish.design > in_line->rating);
}

}  // namespace

FuseWindow fuse_window(const FuseWish& wish, const Rules& rules, const Tables& tables) {
    return window_of(wish, rules, tables.fuse_families.empty() ? PerKelvin{} : tables.fuse_families.front().rerating);
}

std::optional<FuseFit> choose_fuse(const FuseWish& wish, const Rules& rules, const Tables& tables) {
    std::optional<FuseFit> strongest;
    for (const FuseFamilyRow& family : tables.fuse_families) {
        if (!comes_into_question(family, wish, rules, tables)) continue;
        const FuseWindow window = window_of(wish, rules, family.rerating);
        const auto rating = rules.shelf ? rating_in(window, *rules.shelf, family.family, wish, tables)
                                        : rating_in(window, tables.fuses, family.family, wish, tables);
        if (!rating) continue;
        FuseFit fit = fit_of(family, *rating, wish, rules, tables);
        if (breaks_enough(fit)) return fit;
        if (!strongest || fit.fault.breaking_capacity.value > strongest->fault.breaking_capacity.value)
            strongest = std::move(fit);
    }
    return strongest;
}

std::optional<FuseFit> judge_fuse(const FuseOfRating& fuse, const FuseWish& wish, const Rules& rules,
                                  const Tables& tables) {
    const FuseFamilyRow* family = find_fuse_family(tables, fuse.family);
    if (!family) return {};
    FuseFit fit = fit_of(*family, fuse.rating, wish, rules, tables);
    fit.given = true;
    return fit;
}

}  // namespace voltwright

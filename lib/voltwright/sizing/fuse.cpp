#include "voltwright/sizing/fuse.hpp"

#include "voltwright/circuit/conductor.hpp"
#include "voltwright/circuit/fuse_time.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
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
        if (!row.cold || row.family != family) continue;
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

/// What may be asked of a fuse that breaks so much by itself, behind fuses that break so much.
Current interrupted(Current alone, Current in_front) {
    static const double behind_main = in_ratio(in_practice(PracticeShare::behind_main));
    return std::max(alone, std::min<Current>(in_front, behind_main * alone));
}

}  // namespace

Current FaultAtFuse::interrupts() const { return interrupted(breaking_capacity.value, in_front); }

bool breaks_enough(const FuseFit& fuse) { return fuse.fault.expected.current <= fuse.fault.interrupts(); }

std::optional<Cited<Current>> breaking_capacity(const Tables& tables, std::string_view family, Voltage voltage) {
    const BreakingCapacityRow* above = find_breaking_capacity(tables, family, voltage);
    if (!above) return {};
    const BreakingCapacityRow* below = nullptr;
    for (const BreakingCapacityRow& row : tables.breaking_capacities)
        if (row.family == family && row.voltage < voltage && (!below || row.voltage > below->voltage)) below = &row;
    if (!below) return Cited<Current>{above->breaking_capacity, above->source};
    const double share = (voltage - below->voltage) / (above->voltage - below->voltage);
    return Cited<Current>{below->breaking_capacity + share * (above->breaking_capacity - below->breaking_capacity),
                          above->source};
}

namespace {

FuseWindow window_of(const FuseWish& wish, const Rules& rules, PerKelvin rerating) {
    FuseWindow window =
        fuse_window(wish.design, rules.fuse_use, wish.end.around, rerating, wish.ampacity, wish.parts, wish.appliance);
    window.behind = wish.behind;
    window.at_least = std::max(window.at_least, wish.behind.value_or(Current{}));
    return window;
}

Voltage highest_voltage(const FuseEnd& end) { return std::max(end.open_circuit, end.highest); }

/// A fuse on the post itself has no lead before it.
Resistance lead_before(const FuseWish& wish, FuseForm form) {
    return form == FuseForm::post ? Resistance{} : wish.lead;
}

FaultAtFuse fault_at(const FuseWish& wish, FuseForm form, Resistance fuse, Cited<Current> breaking_capacity) {
    const Resistance lead = lead_before(wish, form), loop = lead + fuse;
    return {lead,
            fuse,
            fault_current(wish.end.open_circuit, wish.end.internal.expected, loop),
            fault_current(wish.end.open_circuit, wish.end.internal.low, loop),
            highest_voltage(wish.end),
            std::move(breaking_capacity),
            wish.in_front};
}

/// What a holder of this family in the cable may carry; empty for what is bolted down.
std::optional<PartRating> in_line_holder(const FuseFamilyRow& family, const FuseWish& wish) {
    if (!family.in_line_limit) return {};
    return part_rating("in-line " + std::string(family.family) + " fuse holder", *family.in_line_limit,
                       family.in_line_area, wish.conductor, wish.end.around);
}

/// The ratings of a family that come into question.
struct RatingRange {
    Current at_least, at_most;
    bool largest = false;  ///< of them the largest is taken, else the smallest
};

/// Which rule allows a rating, in the order in which they are tried.
enum class RatingRule { window, manual, next_made };

/// Made for the highest voltage of the system? Of a family without a figure nothing is known against it.
bool made_for(const Tables& tables, const FuseFamilyRow& family, Voltage highest) {
    std::optional<Voltage> most;
    for (const BreakingCapacityRow& row : tables.breaking_capacities)
        if (row.family == family.family) most = std::max(most.value_or(row.voltage), row.voltage);
    return !most || *most >= highest;
}

/// Of the families of the shelf or the usual ones: no in-line holder beyond what it may carry there, and what sits on a
/// battery's post only on one.
bool comes_into_question(const FuseFamilyRow& family, const FuseWish& wish, bool from_shelf, const Tables& tables) {
    if (!made_for(tables, family, wish.end.highest)) return false;
    if (family.form == FuseForm::post && !is_battery(wish.end.at)) return false;
    if (from_shelf) return true;
    const auto in_line = in_line_holder(family, wish);
    return family.usual && !(in_line && wish.most.value_or(wish.design) > in_line->rating);
}

/// Whether the appliance's manual allows less than what carries the current for long.
bool manual_decides(const FuseWindow& window) {
    return window.appliance && *window.appliance < window.at_least && window.at_most == *window.appliance;
}

/// Empty where a rule allows nothing.
std::optional<RatingRange> range_by(RatingRule rule, const FuseWindow& window, const FuseWish& wish) {
    switch (rule) {
        case RatingRule::window: return RatingRange{window.at_least, window.at_most, wish.largest};
        case RatingRule::manual:
            if (!manual_decides(window)) return {};
            return RatingRange{std::max(window.design, window.behind.value_or(Current{})), window.at_most, true};
        case RatingRule::next_made: break;
    }
    // Only the ampacity may be passed, and no part or manual.
    if (!wish.next_made || window.at_most != window.ampacity) return {};
    Current at_most = most_above_ampacity * window.ampacity;
    if (window.parts) at_most = std::min(at_most, *window.parts);
    if (window.appliance) at_most = std::min(at_most, *window.appliance);
    return RatingRange{std::max(window.at_least, window.ampacity), at_most};
}

/// The rating of a family that is taken of a range, from a list of fuses.
template <class Fuses>
std::optional<Current> rating_in(const RatingRange& range, const Fuses& fuses, std::string_view family,
                                 const FuseWish& wish, const Tables& tables) {
    std::optional<Current> found;
    for (const auto& fuse : fuses) {
        if (fuse.rating < range.at_least || fuse.rating > range.at_most || fuse.family != family) continue;
        if (!std::all_of(wish.starting.begin(), wish.starting.end(), [&](const ShortCurrent& starting) {
                return rides_through(tables, family, fuse.rating, starting.current, starting.time);
            }))
            continue;
        if (!found || (range.largest ? fuse.rating > *found : fuse.rating < *found)) found = fuse.rating;
    }
    return found;
}

/// Whether the rating of a given fuse is one that a rule allows.
bool is_allowed(Current rating, const FuseFamilyRow& family, const FuseWindow& window, const FuseWish& wish,
                const Rules& rules, const Tables& tables) {
    if (rating >= window.at_least && rating <= window.at_most) return true;
    const RatingRule rule = rating < window.at_least ? RatingRule::manual : RatingRule::next_made;
    const auto range = range_by(rule, window, wish);
    if (!range || (rule == RatingRule::next_made && made_within(wish, rules, tables))) return false;
    return rating_in(*range, tables.fuses, family.family, wish, tables) == rating;
}

/// A fuse of this family and rating in its place, whether or not it is right there.
FuseFit fit_of(const FuseFamilyRow& family, Current rating, const FuseWish& wish, const Rules& rules,
               const Tables& tables) {
    const FuseWindow window = window_of(wish, rules, family.rerating);
    const Cited<Resistance> link = fuse_link_resistance(tables, family.family, rating);
    // A link whose resistance nobody printed is nothing to a fault, and to a drop as much as the worst of its fellows.
    Cited<Resistance> for_drop = link;
    for (const FuseFamilyRow& other : tables.fuse_families) {
        if (link.value > Resistance{} || family.form == FuseForm::breaker) break;
        const Cited<Resistance> known = fuse_link_resistance(tables, other.family, rating);
        if (known.value > for_drop.value) for_drop = known;
    }
    const auto capacity = breaking_capacity(tables, family.family, highest_voltage(wish.end));
    return {.at = wish.end.at,
            .family = std::string(family.family),
            .standard = std::string(family.standard),
            .form = family.form,
            .rating = rating,
            .window = window,
            .fault = fault_at(wish, family.form, link.value + family.holder,
                              capacity.value_or(Cited<Current>{Current{}, family.source})),
            .link = for_drop,
            .holder = {family.holder, family.source},
            .in_line = in_line_holder(family, wish)};
}

/// The next larger rating that the usual families are made in.
Current next_larger(Current rating, const Tables& tables) {
    std::optional<Current> next;
    for (const FuseRow& row : tables.fuses) {
        if (row.rating <= rating || (next && row.rating >= *next)) continue;
        const FuseFamilyRow* family = find_fuse_family(tables, row.family);
        if (family && family->usual && !family->only_to_break) next = row.rating;
    }
    return next.value_or(rating);
}

/// A family that has a rating in the range, before its fuse is looked at closely.
struct FuseOption {
    const FuseFamilyRow* family;
    Current rating;
    Current breaks;
};

bool breaks_enough(const FuseOption& option, const FuseWish& wish, const Tables& tables) {
    const FuseFamilyRow& family = *option.family;
    const Resistance loop = lead_before(wish, family.form) + family.holder +
                            fuse_link_resistance(tables, family.family, option.rating).value;
    return fault_current(wish.end.open_circuit, wish.end.internal.expected, loop).current <=
           interrupted(option.breaks, wish.in_front);
}

std::optional<FuseOption> option_of(const FuseFamilyRow& family, RatingRule rule, const FuseWish& wish, const Rules& rules,
                                const Tables& tables) {
    if (!comes_into_question(family, wish, rules.shelf.has_value(), tables)) return {};
    const auto range = range_by(rule, window_of(wish, rules, family.rerating), wish);
    if (!range) return {};
    const auto rating = rules.shelf ? rating_in(*range, *rules.shelf, family.family, wish, tables)
                                    : rating_in(*range, tables.fuses, family.family, wish, tables);
    if (!rating) return {};
    const auto breaks = breaking_capacity(tables, family.family, highest_voltage(wish.end));
    return FuseOption{&family, *rating, breaks ? breaks->value : Current{}};
}

/// Under one rule: the first family, or one after it that breaks more.
std::optional<FuseFit> choose_by(RatingRule rule, const FuseWish& wish, const Rules& rules, const Tables& tables) {
    std::optional<FuseOption> taken;
    Current largest{};
    for (const FuseFamilyRow& family : tables.fuse_families) {
        if (family.only_to_break && !rules.shelf && !taken) continue;
        const auto option = option_of(family, rule, wish, rules, tables);
        if (!option || (taken && wish.for_one_appliance && option->rating > largest)) continue;
        const bool enough = breaks_enough(*option, wish, tables);
        if (!taken && !enough) largest = next_larger(option->rating, tables);
        if (!taken || enough || option->breaks > taken->breaks) taken = option;
        if (enough) break;
    }
    if (!taken) return {};
    return fit_of(*taken->family, taken->rating, wish, rules, tables);
}

}  // namespace

Resistance lead_from_post(const ConductorRow& conductor, Length run, const Rules& rules, const Tables& tables) {
    const AmpacityBasisRow* basis = find_ampacity_basis(tables, rules.ampacity_basis);
    if (!basis) throw std::logic_error("no such ampacity basis: " + rules.ampacity_basis);
    const Length length = std::min<Length>(basis->fuse_within.value_or(inches(7)), run);
    const JointRow* lug = find_joint(tables, "lug", conductor.area);
    return resistance_per_length(conductor, Coating::plain, celsius(20)) * length + (lug ? lug->low : Resistance{});
}

bool made_within(const FuseWish& wish, const Rules& rules, const Tables& tables) {
    return std::any_of(tables.fuse_families.begin(), tables.fuse_families.end(), [&](const FuseFamilyRow& family) {
        if (family.only_to_break || !comes_into_question(family, wish, false, tables)) return false;
        const FuseWindow window = window_of(wish, rules, family.rerating);
        return rating_in({window.at_least, window.ampacity}, tables.fuses, family.family, wish, tables).has_value();
    });
}

FuseWindow fuse_window(const FuseWish& wish, const Rules& rules, const Tables& tables) {
    return window_of(wish, rules, tables.fuse_families.empty() ? PerKelvin{} : tables.fuse_families.front().rerating);
}

std::optional<FuseFit> choose_fuse(const FuseWish& wish, const Rules& rules, const Tables& tables) {
    if (auto fit = choose_by(RatingRule::window, wish, rules, tables)) return fit;
    if (wish.appliance)
        if (auto fit = choose_by(RatingRule::manual, wish, rules, tables)) return fit;
    if (!wish.next_made || made_within(wish, rules, tables)) return {};
    return choose_by(RatingRule::next_made, wish, rules, tables);
}

std::optional<FuseFit> judge_fuse(const FuseOfRating& fuse, const FuseWish& wish, const Rules& rules,
                                  const Tables& tables) {
    const FuseFamilyRow* family = find_fuse_family(tables, fuse.family);
    if (!family) return {};
    FuseFit fit = fit_of(*family, fuse.rating, wish, rules, tables);
    if (fuse.breaking) fit.fault.breaking_capacity = {*fuse.breaking, {"profile", "breaking"}};
    fit.in_window = is_allowed(fuse.rating, *family, fit.window, wish, rules, tables);
    fit.given = true;
    return fit;
}

}  // namespace voltwright

#include "voltwright/sizing/protection.hpp"

#include "voltwright/circuit/fuse_time.hpp"
#include "voltwright/tables/tables.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

HeatedConductor heated_conductor(Area area, Temperature rated, Temperature around,
                                 const std::optional<Ampacity>& ampacity) {
    if (!ampacity) return {area, rated, around, Current{}, around};
    const Ratio ambient = ampacity->ambient;
    const Temperature counted = ampacity->rated - (ampacity->rated - ampacity->reference) * ambient * ambient;
    return {area, ampacity->rated, ampacity->reference, ampacity->table.value * ampacity->grouping,
            std::max(around, counted)};
}

Resistance aged_resistance(const InternalResistance& battery) {
    return battery.assumed ? Protection::aged * battery.high : battery.high;
}

Resistance aged_resistance(const FuseEnd& end, Resistance loop) {
    const Resistance aged = aged_resistance(end.internal);
    if (!end.internal.assumed || !end.feeds) return aged;
    return std::min(aged, std::max(*end.feeds - Protection::coldest_loop * loop, end.internal.expected));
}

namespace {

/// The worse of two: what is further above its limit, or nearer to it.
void keep_worse(std::optional<LastingShort>& worst, const LastingShort& one) {
    if (!worst || one.reaches - one.limit > worst->reaches - worst->limit) worst = one;
}

/// All shorts between the lowest and the highest that take longer than 5 s. Between the printed times of a fuse the heat
/// has no simple greatest value: it is looked for in even steps of the current.
std::optional<LastingShort> worst_lasting(const FuseFit& fuse, Current lowest, Current highest,
                                          const ShortedConductor& conductor, const Tables& tables) {
    constexpr int steps = 16;
    const HeatedConductor& heat = conductor.heated;
    const auto first = first_cleared(tables, fuse.family, fuse.rating);
    const auto last = surely_clears(tables, fuse.family, fuse.rating, Protection::adiabatic);
    if (!first || !last || lowest > *last) return {};
    std::optional<LastingShort> worst;
    if (lowest < *first) {
        const Current uncleared = std::min(*first, std::max(lowest, highest));
        worst = LastingShort{uncleared, {}, conductor.start, settled(heat, uncleared), heat.rated};
    }
    const Current from = std::max(lowest, *first), to = std::max(from, std::min(*last, highest));
    if (highest < *first) return worst;
    const double step = std::pow(double(to / from), 1.0 / steps);
    Current current = from;
    for (int i = 0; i <= steps && current <= to * (1.0 + 1e-9); ++i, current *= step) {
        const auto time = fuse_time(tables, fuse.family, fuse.rating, current);
        if (!time || !time->at_most || *time->at_most <= Protection::adiabatic) continue;
        keep_worse(worst, {current, *time->at_most, conductor.start,
                           heated(heat, conductor.start, current, *time->at_most), conductor.overload});
        if (!(to > from)) break;
    }
    return worst;
}

}  // namespace

Protection protect(const FuseFit& fuse, const FuseEnd& end, Resistance loop, const ShortedConductor& conductor,
                   const Tables& tables) {
    Protection protection{.at = fuse.at,
                          .lowest = fault_current(end.open_circuit, aged_resistance(end, loop), loop),
                          .clears = {},
                          .known = false,
                          .at_far = {},
                          .at_worst = {},
                          .lasting = {}};
    const Current lowest = protection.lowest.current, highest = fuse.fault.highest.current;
    const auto far = fuse_time(tables, fuse.family, fuse.rating, lowest);
    protection.known = far.has_value();
    if (!far) return protection;
    protection.clears = far->at_most;
    const auto stood = [&](Current current, Duration time) {
        return withstand(conductor.heated.area, conductor.start, conductor.limit, current, time);
    };
    if (far->at_most && *far->at_most <= Protection::adiabatic) protection.at_far = stood(lowest, *far->at_most);
    protection.lasting = worst_lasting(fuse, lowest, highest, conductor, tables);
    const Current soon = surely_clears(tables, fuse.family, fuse.rating, Protection::adiabatic).value_or(lowest);
    if (const Current from = std::max(lowest, soon); from <= std::max(lowest, highest))
        if (const auto worst = most_let_through(tables, fuse.family, fuse.rating, from, highest);
            worst && worst->at_most)
            protection.at_worst = stood(worst->current, *worst->at_most);
    return protection;
}

}  // namespace voltwright

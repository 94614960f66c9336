#include "voltwright/planning/findings/largest_that.hpp"
#include "voltwright/planning/findings/run_remedies.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace voltwright {

namespace {

/// The rules with every size of their systems.
Rules with_all_sizes(const RunContext& of) {
    Rules fuller = of.system.rules;
    const std::vector<Gauge> there = fuller.sizes;
    for (const ConductorRow& row : of.tables.conductors) {
        const bool of_system =
            std::any_of(there.begin(), there.end(), [&](Gauge size) { return size.system == row.gauge.system; });
        if (of_system && std::find(there.begin(), there.end(), row.gauge) == there.end())
            fuller.sizes.push_back(row.gauge);
    }
    return fuller;
}

/// The whole series of a size, as the profile names it: what one run lacks another may lack too.
std::string series_of(Gauge size) { return size.system == GaugeSystem::awg ? "awg" : "metric"; }

/// A size that the list of the rules does not hold.
std::optional<Remedy> size_beyond_the_shop(const RunContext& of) {
    const Rules fuller = with_all_sizes(of);
    if (fuller.sizes.size() == of.system.rules.sizes.size() || of.way().given) return {};
    const auto candidate = would_do(of, of.way(), fuller);
    if (!candidate) return {};
    return Remedy{{{RemedyCode::shop_lacks_size, {{"cable", named_cable(of, candidate->size)}}}},
                  {{"rules.sizes", series_of(candidate->size)}}};
}

/// The longest run, otherwise as `base`, that would do, to the tenth of a metre; nothing below half a metre.
struct Shorter {
    Length length;
    Gauge size;
};
std::optional<Shorter> longest_that_does(const RunContext& of, const CableRun& base) {
    constexpr Length step = metres(0.1);
    const auto of_length = [&](int steps) {
        CableRun changed = base;
        const Length length = step * static_cast<double>(steps);
        for (WayPart& part : changed.way) part.length *= double(length / *changed.length);
        changed.length = length;
        return changed;
    };
    const int most = static_cast<int>(std::ceil(double(*of.way().length / step))) - 1;
    const auto steps = largest_that(5, most, [&](int n) { return would_do(of, of_length(n)).has_value(); });
    if (!steps) return {};
    const auto candidate = would_do(of, of_length(*steps));
    return Shorter{step * static_cast<double>(*steps), candidate->size};
}

/// Of a way in parts each has a length of its own.
std::vector<Change> length_change(const RunContext& of, Length length) {
    return of.way().way.size() > 1 ? std::vector<Change>{} : change_of(of, "length", show(length));
}

/// A cable back on a shorter way: neither does alone.
std::optional<Remedy> shorter_with_cable_back(const RunContext& of) {
    CableRun changed = of.way();
    if (!changed.body) return {};
    changed.body.reset();
    changed.given.reset();
    changed.loaded_in_bundle = std::max(changed.loaded_in_bundle, 2);
    const auto shorter = longest_that_does(of, changed);
    if (!shorter) return {};
    const RemedyStep step{RemedyCode::cable_back_and_shorter,
                          {{"cable", named_cable(of, shorter->size)}, {"length", shorter->length}}};
    if (of.way().way.size() > 1) return Remedy{{step}, {}};
    Remedy remedy{{step}, change_of(of, "return", "cable")};
    remedy = std::move(remedy) + Remedy{{}, length_change(of, shorter->length)};
    return of.way().given ? std::move(remedy) + Remedy{{}, size_change(of, shorter->size)} : remedy;
}

}  // namespace

std::optional<Remedy> shorter_run(const RunContext& of) {
    const auto shorter = longest_that_does(of, of.way());
    if (!shorter) return {};
    return Remedy{{{RemedyCode::shorten_run_to, {{"length", shorter->length}}}}, length_change(of, shorter->length)};
}

std::optional<Remedy> way_out(const RunContext& of) {
    if (auto back = cable_back(of)) return back;
    if (auto size = size_beyond_the_shop(of)) return size;
    if (auto shorter = shorter_run(of)) return shorter;
    return shorter_with_cable_back(of);
}

}  // namespace voltwright

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

}  // namespace

std::optional<Remedy> shorter_run(const RunContext& of) {
    constexpr Length step = metres(0.1);
    const auto of_length = [&](int steps) {
        CableRun changed = of.way();
        const Length length = step * static_cast<double>(steps);
        for (WayPart& part : changed.way) part.length *= double(length / *changed.length);
        changed.length = length;
        return changed;
    };
    const int most = static_cast<int>(std::ceil(double(*of.way().length / step))) - 1;
    const auto steps = largest_that(5, most, [&](int n) { return would_do(of, of_length(n)).has_value(); });
    if (!steps) return {};
    const Length length = step * static_cast<double>(*steps);
    // Of a way in parts each has a length of its own.
    return Remedy{{{RemedyCode::shorten_run_to, {{"length", length}}}},
                  of.way().way.size() > 1 ? std::vector<Change>{} : change_of(of, "length", show(length))};
}

std::optional<Remedy> way_out(const RunContext& of) {
    if (auto back = cable_back(of)) return back;
    if (auto size = size_beyond_the_shop(of)) return size;
    return shorter_run(of);
}

}  // namespace voltwright

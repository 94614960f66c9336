#include "voltwright/planning/findings/short_remedies.hpp"

#include "voltwright/planning/findings/largest_that.hpp"
#include "voltwright/planning/findings/run_remedies.hpp"
#include "voltwright/units/show.hpp"

#include <cmath>
#include <optional>
#include <string>
#include <utility>

namespace voltwright {

namespace {

std::optional<Remedy> other_cable(const RunContext& of) {
    const Candidate* taken = of.run.taken();
    const Candidate* least = of.run.choice.least_that_fits();
    if (!thin_return(of) && (!least || (taken && taken->size == least->size))) return {};
    return size_that_fits(of);
}

std::optional<Remedy> other_fuse(const RunContext& of) {
    const Candidate* taken = of.run.taken();
    if (!taken) return {};
    const std::vector<NamedFuse> fits = fuses_that_fit(of, taken->size);
    if (fits.empty()) return {};
    return Remedy{{{RemedyCode::fit_fuse, {{"fuses", fits}}}}, fuse_change(of, fits)};
}

bool would_do_with(const RunContext& of, const InternalResistance& battery) {
    CableRun changed = of.way();
    for (FuseEnd& end : changed.fused_at) end.internal = battery;
    return would_do(of, changed).has_value();
}

bool from_the_starter(const RunContext& of) {
    for (std::size_t i = 0; i < of.system.runs.size(); ++i)
        if (*of.system.runs[i].run.name == *of.way().name)
            return of.run.task.role != RunRole::output && source_of(of.system, i).kind == PlaceKind::starter_battery;
    return false;
}

/// Of a battery whose resistance nobody gave: the most that it may have, to the tenth of a milliohm.
std::optional<Remedy> known_battery(const RunContext& of) {
    const InternalResistance* battery = assumed_battery(of);
    if (!battery) return {};
    const bool starter = from_the_starter(of);
    const double batteries = starter ? 1.0 : of.system.house.count;
    constexpr Resistance step = milliohms(0.1);
    const auto of_all = [&](int steps) { return step * static_cast<double>(steps) / batteries; };
    const int least = static_cast<int>(std::ceil(double(battery->low * batteries / step)));
    const int most = static_cast<int>(std::floor(double(aged_resistance(*battery) * batteries / step)));
    const auto steps =
        largest_that(least, most, [&](int n) { return would_do_with(of, known_resistance(of_all(n), Resistance{})); });
    if (!steps) return {};
    const Resistance one = step * static_cast<double>(*steps);
    return Remedy{{{RemedyCode::give_internal_resistance,
                    {{"resistance", one}, {"battery", std::string(starter ? "starter" : "battery")}}}},
                  {{(starter ? "starter" : "battery") + std::string(".internal_resistance"), show(one)}}};
}

/// To ten ampere-hours, up to four times what there is.
std::optional<Remedy> larger_battery(const RunContext& of) {
    if (!assumed_battery(of) || from_the_starter(of)) return {};
    constexpr Charge step = ampere_hours(10);
    const BatteryBank& house = of.system.house;
    const int there = static_cast<int>(std::floor(double(house.capacity / step)));
    const int most = 4 * there + 4;
    // Counted down from the largest, as more does.
    const auto fewer = largest_that(0, most - there - 1, [&](int n) {
        return would_do_with(of,
                             internal_resistance(*house.chemistry, step * static_cast<double>(most - n), house.count));
    });
    if (!fewer) return {};
    const Charge capacity = step * static_cast<double>(most - *fewer);
    return Remedy{{{RemedyCode::larger_battery, {{"capacity", capacity}}}}, {{"battery.capacity", show(capacity)}}};
}

}  // namespace

Remedy cure_of_short(const RunContext& of, bool given_fuse) {
    if (given_fuse)
        if (auto fuse = other_fuse(of)) return *std::move(fuse);
    if (auto cable = other_cable(of)) return *std::move(cable);
    if (auto out = way_out(of)) return *std::move(out);
    const auto larger = larger_battery(of);
    if (auto known = known_battery(of)) {
        if (larger) known->steps.insert(known->steps.end(), larger->steps.begin(), larger->steps.end());
        return *std::move(known);
    }
    if (larger) return *larger;
    return {{{RemedyCode::no_size_does, {}}}, {}};
}

}  // namespace voltwright

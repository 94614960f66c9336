#include "voltwright/planning/findings/energy_concerns.hpp"
#include "voltwright/planning/findings/sources.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace voltwright {

namespace {

constexpr int minutes_a_day = 24 * 60;

/// What hangs on the inverter and is on at one time.
struct Together {
    Power draw{};
    std::vector<std::string> names = {};
};

bool is_on(const LoadUnit& load, int minute) {
    return std::any_of(load.hours.begin(), load.hours.end(),
                       [&](const ClockWindow& window) { return window.holds(minute); });
}

Together on_at(const std::vector<LoadUnit>& loads, int minute) {
    Together sum;
    for (const LoadUnit& load : loads) {
        if (!load.through_inverter || !is_on(load, minute)) continue;
        sum.draw += std::get<Power>(load.draw);
        sum.names.push_back(load.name);
    }
    return sum;
}

/// The most that it is asked for: the sum grows only where the hours of one begin.
Together most_at_once(const std::vector<LoadUnit>& loads) {
    Together most;
    for (const LoadUnit& load : loads) {
        if (!load.through_inverter) continue;
        for (const ClockWindow& window : load.hours)
            if (Together then = on_at(loads, window.from.minutes % minutes_a_day); then.draw > most.draw)
                most = std::move(then);
    }
    return most;
}

}  // namespace

void find_inverter_output(const EnergyContext& of, Findings& found) {
    const auto& inverter = of.system.inverter;
    if (!inverter) return;
    Together most = most_at_once(of.system.loads);
    const Power output = inverter->output;
    if (!(most.draw > output)) return;
    const RemedyCode cure = most.names.size() > 1 ? RemedyCode::other_hours : RemedyCode::larger_inverter;
    found.push_back({.level = Level::stop,
                     .code = FindingCode::inverter_overloaded,
                     .about = {FindingSubject::Kind::inverter},
                     .found = most.draw,
                     .allowed = output,
                     .arguments = {{"loads", std::move(most.names)}},
                     .remedy = {{{cure, {}}}, {}},
                     .source = sources::inverter_output,
                     .concern = Concern::engine_off});
}

void find_inverter_input(const EnergyContext& of, Findings& found) {
    const auto& inverter = of.system.inverter;
    if (!inverter) return;
    const Ratio efficiency = inverter->efficiency;
    const Current input = inverter->output / efficiency / end_of_rating;
    const Current limit = of.system.house.discharge_limit;
    if (!(input > limit)) return;
    const Power bearable = limit * end_of_rating * efficiency;
    const Power step = watts(bearable < watts(100) ? 1 : 10);
    found.push_back({.level = Level::warn,
                     .code = FindingCode::inverter_above_battery,
                     .about = {FindingSubject::Kind::inverter},
                     .found = input,
                     .allowed = limit,
                     .arguments = {{"bearable", Power{std::floor(bearable / step) * step}}},
                     .source = of.system.house.chemistry->source,
                     .concern = Concern::trip});
}

}  // namespace voltwright

#include "voltwright/sizing/short_time.hpp"

#include "voltwright/sizing/protection.hpp"

namespace voltwright {

Ratio factor_in(const HeatedConductor& conductor, const ShortTimeCurrent& flows) {
    static const double counted = in_ratio(in_practice(PracticeShare::short_time));
    const auto tau = time_constant(conductor);
    if (!tau || flows.on > *tau * counted) return Ratio{1.0};
    return short_time_factor(*tau, flows.on, flows.cycle);
}

Current lasting_current(const DesignCurrent& design, const HeatedConductor& conductor) {
    if (!design.short_time) return design.current;
    const ShortTimeCurrent& flows = *design.short_time;
    const Ratio factor = factor_in(conductor, flows);
    const auto base = flows.base * flows.base;
    return sqrt(base + (flows.current * flows.current - base) / (factor * factor));
}

Current lasting_current(const DesignCurrent& design, const CableRun& run, Area thinner,
                        const std::optional<Ampacity>& ampacity) {
    if (!design.short_time) return design.current;
    return lasting_current(design, heated_conductor(thinner, run.insulation, hottest_surroundings(run), ampacity));
}

std::vector<ShortCurrent> to_let_pass(const CableRun& run, const DesignCurrent& design, Ratio rerating) {
    std::vector<ShortCurrent> all = run.starting;
    if (const auto& flows = design.short_time) all.push_back({flows->current / rerating, flows->on});
    return all;
}

}  // namespace voltwright

#include "voltwright/sizing/warm_run.hpp"

#include <algorithm>
#include <stdexcept>

namespace voltwright {

WarmRun::Temperatures WarmRun::at(Current current) const {
    const auto warmed = [&](const std::optional<Ampacity>& limit) {
        if (!limit) return around;
        const auto settled =
            conductor_temperature(around, current, limit->rated, limit->reference, limit->table.value, limit->grouping);
        return std::min(settled.temperature, std::max(hottest, around));
    };
    const Temperature of_out = warmed(out_limit);
    return {of_out, back ? warmed(back_limit) : of_out};
}

Resistance WarmRun::loop(Temperatures conductors) const {
    Resistance both = resistance_per_length(out, Coating::plain, conductors.out) * length;
    if (back) both += resistance_per_length(*back, Coating::plain, conductors.back) * length;
    return both + fixed;
}

Conductors conductors_of(const CableRun& run, Gauge size, const Tables& tables) {
    const auto row = [&](Gauge gauge) {
        auto found = conductor_of(tables, gauge);
        if (!found) throw std::logic_error("no such conductor: " + show(gauge));
        return *found;
    };
    Conductors both{row(size), {}};
    if (!run.body) both.back = row(run.return_size.value_or(size));
    return both;
}

Voltage where_bundles_count(const Rules& rules, const Tables& tables) {
    const AmpacityBasisRow* basis = find_ampacity_basis(tables, rules.ampacity_basis);
    return basis ? std::max(nominal_voltage, basis->grouping_from) : nominal_voltage;
}

WarmRun warm_run(const CableRun& run, const Conductors& both, const std::optional<Ampacity>& of_thinner,
                 const RunResistance& resistance, const Rules& rules, const Tables& tables) {
    const Temperature around = average_surroundings(run);
    const auto limit_of = [&](const ConductorRow& row) {
        // What heats is the same in any surroundings.
        if (row.gauge == both.thinner().gauge) return of_thinner;
        return ampacity(tables, rules.ampacity_basis, row, run.insulation, around, run.loaded_in_bundle,
                        where_bundles_count(rules, tables));
    };
    WarmRun warm{.length = run.length,
                 .out = both.out,
                 .back = both.back,
                 .out_limit = limit_of(both.out),
                 .back_limit = {},
                 .around = around,
                 .fixed = resistance.all_joints + (both.back ? Resistance{} : resistance.body->value)};
    if (both.back) warm.back_limit = limit_of(*both.back);
    if (run.short_time) warm.hottest = run.insulation;
    return warm;
}

RunResistance with_conductors_at(const Conductors& both, RunResistance resistance, WarmRun::Temperatures temperatures) {
    std::optional<ConductorResistance> back;
    if (both.back) back = conductor_resistance(*both.back, Coating::plain, temperatures.back);
    change_conductors(resistance, conductor_resistance(both.out, Coating::plain, temperatures.out), back);
    return resistance;
}

}  // namespace voltwright

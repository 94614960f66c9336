#include "voltwright/diagnosis/screening_state.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// A load that takes less of what it should than this takes nothing; one that should take less than an ampere cannot be
/// told from a clamp's zero (data/practice/shares.toml).
const double share_of_idle_load = in_ratio(in_practice(PracticeShare::idle_load));
constexpr Current worth_asking = amperes(1.0);

bool takes_nothing(const ScreeningState& state, const Measurement& clamp, std::size_t branch) {
    const Current usual = sound_current(state.evidence, branch, clamp);
    if (!(usual > worth_asking) || !shows_no_current(state.evidence, clamp)) return false;
    if (clamp.value > MeterValue(Current(share_of_idle_load * usual))) return false;
    return !current_flows(state.evidence, branch, clamp) && !behind_open_circuit(state, clamp);
}

/// Was the voltage of the branch's end read in that condition, or anything from plus to minus that ends there?
bool voltage_was_read(const ScreeningState& state, std::size_t branch, const TestCondition& condition) {
    return std::any_of(state.measurements().begin(), state.measurements().end(), [&](const Measurement& other) {
        return plus_to_minus(other) && measured_branch(state.model(), other.probe) == branch &&
               other.condition == condition;
    });
}

}  // namespace

void check_loads_that_take_nothing(ScreeningState& state) {
    for (std::size_t i = 0; i < state.measurements().size(); ++i) {
        const Measurement& told = state.measurements()[i];
        const auto* through = std::get_if<Probe::Through>(&told.probe.what);
        if (!through || state.model().is_chargers(through->branch)) continue;
        if (!takes_nothing(state, told, through->branch)) continue;
        const Branch& run = state.model().branches[through->branch];
        state.anomalies.push_back({.kind = Anomaly::Kind::nothing_flows,
                                   .measurement = told.number,
                                   .run = run.run,
                                   .found = told.value.measure()});
        state.finished[i] = true;
        for (const CircuitLoad& load : state.model().loads)
            if (state.model().leads_through(through->branch, load.branch)) state.idle_loads.push_back(load.name);
        const auto probe = probe_across(state.model(), {run.far});
        if (!state.next && probe && !voltage_was_read(state, through->branch, told.condition))
            state.next = ProposedReading{.probe = *probe,
                                         .condition = told.condition,
                                         .across = {run.far},
                                         .run = run.run,
                                         .proves = Proves::load};
    }
}

}  // namespace voltwright

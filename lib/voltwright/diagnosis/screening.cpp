#include "voltwright/diagnosis/screening.hpp"

#include "voltwright/diagnosis/screening_state.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// Behind a break, or on and without a current.
bool takes_nothing(const ScreeningState& state, const CircuitLoad& load) {
    return std::find(state.idle_loads.begin(), state.idle_loads.end(), load.name) != state.idle_loads.end() ||
           std::any_of(state.open.begin(), state.open.end(),
                       [&](const OpenCircuit& one) { return state.model().leads_through(one.branch, load.branch); });
}

void switch_off_what_takes_nothing(const ScreeningState& state, TestCondition& condition) {
    const auto& loads = state.model().loads;
    auto& on = condition.with;
    on.erase(std::remove_if(on.begin(), on.end(),
                            [&](const std::string& name) {
                                return std::any_of(loads.begin(), loads.end(), [&](const CircuitLoad& load) {
                                    return load.name == name && takes_nothing(state, load);
                                });
                            }),
             on.end());
}

}  // namespace

ScreenedMeasurements screen(const SoundVehicle& sound, const std::vector<Measurement>& measurements) {
    ScreeningState state{.evidence = evidence_of(sound, measurements)};
    state.finished.resize(measurements.size());
    state.battery_as_read.resize(measurements.size());
    check_polarity(state);
    check_open_circuits(state);
    check_loads_that_take_nothing(state);
    check_batteries(state);
    check_charger(state);
    check_lost_under_load(state);
    ScreenedMeasurements screened;
    for (std::size_t i = 0; i < measurements.size(); ++i) {
        if (state.finished[i] || behind_open_circuit(state, measurements[i])) continue;
        ScreenedMeasurement one{.measurement = measurements[i],
                                .charger_idle = charger_is_idle(state, measurements[i].condition),
                                .battery_as_read = state.battery_as_read[i]};
        switch_off_what_takes_nothing(state, one.measurement.condition);
        screened.usable.push_back(std::move(one));
    }
    screened.anomalies = std::move(state.anomalies);
    screened.next = std::move(state.next);
    return screened;
}

}  // namespace voltwright

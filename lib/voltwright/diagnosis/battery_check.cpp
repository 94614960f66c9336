#include "voltwright/diagnosis/screening_state.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// A place that has so much less than its battery would need a way that is as good as open (data/practice/voltages.toml).
const Voltage as_good_as_open = in_practice(PracticeVoltage::as_good_as_open);

/// No place has more than its battery, but for what meters are off.
bool higher_elsewhere(const ScreeningState& state, const Measurement& post, Battery battery) {
    return std::any_of(state.measurements().begin(), state.measurements().end(), [&](const Measurement& other) {
        const auto there = plus_to_minus(other);
        return there && &other != &post && on_circuit_of(state.evidence, other, battery) &&
               other.condition.charging() == post.condition.charging() &&
               measured_branch(state.model(), other.probe) != state.model().output &&
               MeterValue(*there) > MeterValue(*plus_to_minus(post)) + surely * (other.uncertainty + post.uncertainty);
    });
}

/// And none so much less that the way to it would have to be as good as open.
bool lower_elsewhere(const ScreeningState& state, const Measurement& post, Battery battery) {
    return std::any_of(state.measurements().begin(), state.measurements().end(), [&](const Measurement& other) {
        const auto there = plus_to_minus(other);
        return there && &other != &post && on_circuit_of(state.evidence, other, battery) &&
               other.condition == post.condition && *there < *plus_to_minus(post) - as_good_as_open;
    });
}

/// An anomaly after which the battery is taken to stand where it was read.
void tell_battery(ScreeningState& state, std::size_t reading, Anomaly::Kind kind, Battery battery) {
    const Measurement& post = state.measurements()[reading];
    state.anomalies.push_back(
        {.kind = kind, .measurement = post.number, .battery = battery, .found = Measure{*plus_to_minus(post)}});
    if (kind != Anomaly::Kind::low_charging) state.battery_as_read[reading] = true;
}

void check_starter_while_charging(ScreeningState& state, std::size_t reading, Voltage there) {
    const BatteryLimits& limits = state.evidence.sound.batteries;
    if (there < limits.starter_charged)
        tell_battery(state, reading, Anomaly::Kind::not_charged, Battery::starter);
    else if (there < limits.starter_running)
        tell_battery(state, reading, Anomaly::Kind::low_charging, Battery::starter);
}

void check_battery(ScreeningState& state, std::size_t reading, Battery battery) {
    const Measurement& post = state.measurements()[reading];
    const BatteryLimits& limits = state.evidence.sound.batteries;
    const bool starter = battery == Battery::starter;
    const Voltage there = *plus_to_minus(post);
    const bool charging = post.condition.charging();
    const Voltage highest = starter ? limits.starter_highest : limits.house_highest;
    if (charging && there > highest && !lower_elsewhere(state, post, battery))
        tell_battery(state, reading, Anomaly::Kind::overcharged, battery);
    if (higher_elsewhere(state, post, battery)) return;
    if (charging && starter) check_starter_while_charging(state, reading, there);
    const Voltage rested = starter ? limits.starter_rested : limits.house_rested;
    if (!charging && post.condition.with.empty() && there < rested)
        tell_battery(state, reading, Anomaly::Kind::low_battery, battery);
}

}  // namespace

void check_batteries(ScreeningState& state) {
    for (std::size_t i = 0; i < state.measurements().size(); ++i) {
        if (state.finished[i]) continue;
        for (const Battery battery : {Battery::starter, Battery::house})
            if (at_posts(state.measurements()[i], battery)) check_battery(state, i, battery);
    }
}

}  // namespace voltwright

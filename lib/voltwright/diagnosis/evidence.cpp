#include "voltwright/diagnosis/evidence.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

/// A clamp proves that current flows when it shows more than this share of what a sound vehicle draws there.
constexpr double share_that_flows = 0.2;
/// And a drop when it is not further from a sound one than this: less may be a meter's last figure, more a break.
constexpr double least_of_drop = 0.3, most_of_drop = 3.0;

bool is_another(const Measurement& other, const Measurement& told) {
    return &other != &told && other.condition == told.condition;
}

}  // namespace

Evidence evidence_of(const SoundVehicle& sound, const std::vector<Measurement>& measurements) {
    Evidence evidence{.sound = sound, .measurements = measurements, .solved = {}};
    for (const Measurement& one : measurements)
        if (std::none_of(evidence.solved.begin(), evidence.solved.end(),
                         [&](const auto& known) { return known.condition == one.condition; }))
            evidence.solved.push_back({one.condition, solve(sound, one.condition)});
    return evidence;
}

std::optional<Voltage> plus_to_minus(const Measurement& measurement) {
    const auto* between = std::get_if<Probe::Between>(&measurement.probe.what);
    if (!between || between->red.plus == between->black.plus) return {};
    const Voltage shown = measurement.value.voltage();
    return between->red.plus ? shown : -shown;
}

bool at_posts(const Measurement& measurement, Battery battery) {
    const auto* between = std::get_if<Probe::Between>(&measurement.probe.what);
    const auto post = battery == Battery::starter ? Probe::Point::At::starter : Probe::Point::At::house;
    return between && between->red.at == post && between->black.at == post && plus_to_minus(measurement);
}

bool on_circuit_of(const Evidence& evidence, const Measurement& measurement, Battery battery) {
    const auto branch = measured_branch(evidence.sound.model, measurement.probe);
    const bool starter =
        at_posts(measurement, Battery::starter) || (branch && evidence.sound.model.branches[*branch].by_starter);
    return starter == (battery == Battery::starter);
}

const std::optional<Solution>& sound_solution(const Evidence& evidence, const Measurement& measurement) {
    return std::find_if(evidence.solved.begin(), evidence.solved.end(),
                        [&](const auto& one) { return one.condition == measurement.condition; })
        ->solution;
}

Current sound_current(const Evidence& evidence, std::size_t branch, const Measurement& measurement) {
    const auto& solution = sound_solution(evidence, measurement);
    return solution ? solution->current[branch] : Current{};
}

bool shows_no_current(const Evidence& evidence, const Measurement& clamp) {
    const MeterValue most = std::max(surely * clamp.uncertainty, MeterValue(most_asleep(evidence.sound.meter)));
    return clamp.value.size() <= most;
}

namespace {

/// A drop that is neither nothing nor the whole voltage of a battery.
bool is_drop_under_current(const Evidence& evidence, const Measurement& drop) {
    const auto& solution = sound_solution(evidence, drop);
    if (!solution) return false;
    const SoundVehicle& sound = evidence.sound;
    const MeterValue usual = predicted_reading(sound.model, drop.probe, *solution, sound.resistances).size();
    return drop.value > surely * drop.uncertainty && drop.value > least_of_drop * usual &&
           drop.value < most_of_drop * usual;
}

}  // namespace

bool current_flows(const Evidence& evidence, std::size_t branch, const Measurement& told) {
    const CircuitModel& model = evidence.sound.model;
    return std::any_of(evidence.measurements.begin(), evidence.measurements.end(), [&](const Measurement& other) {
        if (!is_another(other, told)) return false;
        const auto there = measured_branch(model, other.probe);
        if (!there || !model.leads_through(branch, *there)) return false;
        if (other.probe.clamp())
            return !shows_no_current(evidence, other) &&
                   other.value > MeterValue(Current(share_that_flows * sound_current(evidence, *there, other)));
        return other.probe.drop() && is_drop_under_current(evidence, other);
    });
}

bool clamped_without_current(const Evidence& evidence, std::size_t branch, const Measurement& told) {
    return std::any_of(evidence.measurements.begin(), evidence.measurements.end(), [&](const Measurement& other) {
        const auto* through = std::get_if<Probe::Through>(&other.probe.what);
        return through && through->branch == branch && other.condition == told.condition &&
               shows_no_current(evidence, other);
    });
}

bool voltage_arrives(const Evidence& evidence, std::size_t branch, const Measurement& told) {
    const CircuitModel& model = evidence.sound.model;
    if (branch == model.output) return false;  // the battery has its own
    return std::any_of(evidence.measurements.begin(), evidence.measurements.end(), [&](const Measurement& other) {
        if (!is_another(other, told) || plus_to_minus(other).value_or(Voltage{}) < alive_from) return false;
        const auto& between = std::get<Probe::Between>(other.probe.what);
        return between.red.same_place(between.black) && between.red.at == Probe::Point::At::branch &&
               model.leads_through(branch, between.red.branch);
    });
}

bool circuit_is_alive(const Evidence& evidence, const Measurement& told) {
    const Battery battery = at_posts(told, Battery::starter) ? Battery::starter : Battery::house;
    return std::any_of(evidence.measurements.begin(), evidence.measurements.end(), [&](const Measurement& other) {
        if (!is_another(other, told) || !on_circuit_of(evidence, other, battery)) return false;
        return other.probe.clamp() ? !shows_no_current(evidence, other)
                                   : plus_to_minus(other).value_or(Voltage{}) >= alive_from;
    });
}

}  // namespace voltwright

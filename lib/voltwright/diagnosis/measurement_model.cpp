#include "voltwright/diagnosis/measurement_model.hpp"

#include "voltwright/tables/practice.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

/// How wide the bounds are within which batteries, charger and loads may be, one standard deviation (data/practice/): voltages
/// by 0.6 V; the charger's output by a third, at idle by two; a load by a third; the charger's losses by a twentieth.
const Voltage battery_is_off = in_practice(PracticeVoltage::battery_is_off);
const double charge_is_off_driving = in_ratio(in_practice(PracticeShare::charge_is_off_driving)),
             charge_is_off_idling = in_ratio(in_practice(PracticeShare::charge_is_off_idling)),
             load_may_be_off = in_ratio(in_practice(PracticeShare::load_may_be_off)),
             losses_may_be_off = in_ratio(in_practice(PracticeShare::losses_may_be_off));

/// And above what the profile says by no more than this: an output is the most that a charger gives, but for what it is
/// made to; a load may be older or hotter than its label (data/practice/).
const double charger_gives_more = in_ratio(in_practice(PracticeShare::charger_gives_more)),
             load_takes_more = in_ratio(in_practice(PracticeShare::load_takes_more));

/// No joint is better than a tenth of what it should have.
constexpr double best_share = 0.1;

/// exp(x) below zero; above it, bending from the same slope towards 1 + `most`.
double held_below(double x, double most) { return x <= 0.0 ? std::exp(x) : 1.0 + most * std::tanh(x / most); }

/// A battery that is unusual and was seen to be so is taken as it was read.
void take_as_read(const ScreenedMeasurement& one, MeasuredCondition& condition) {
    if (one.charger_idle) condition.charger_idle = true;
    if (!one.battery_as_read) return;
    const Voltage shown = one.measurement.value.size().voltage();
    (at_posts(one.measurement, Battery::starter) ? condition.starter : condition.house) = shown;
}

std::size_t condition_index(MeasurementModel& model, const SoundVehicle& sound, const TestCondition& condition) {
    const auto known = std::find_if(model.conditions.begin(), model.conditions.end(),
                                    [&](const MeasuredCondition& one) { return one.condition == condition; });
    if (known != model.conditions.end()) return static_cast<std::size_t>(known - model.conditions.begin());
    const SourceState usual = usual_sources(sound, condition);
    model.conditions.push_back({condition, usual.starter, usual.house});
    return model.conditions.size() - 1;
}

}  // namespace

UnknownLayout layout_of(const CircuitModel& circuit, std::size_t conditions) {
    UnknownLayout layout;
    std::vector<std::optional<std::size_t>> cable(circuit.branches.size());
    std::size_t count = 0;
    for (const CircuitElement& element : circuit.elements) {
        auto& shared = cable[element.branch];
        if (!element.is_cable()) {
            layout.of_element.push_back(count++);
        } else {
            if (!shared) shared = count++;
            layout.of_element.push_back(*shared);
        }
    }
    layout.resistances = {0, count};
    layout.charger_losses = {layout.resistances.end(), 1};
    layout.loads = {layout.charger_losses.end(), circuit.loads.size()};
    layout.sources = {layout.loads.end(), 3 * conditions};
    return layout;
}

MeasurementModel measurement_model(const SoundVehicle& sound, const std::vector<ScreenedMeasurement>& usable) {
    const BatteryLimits& limits = sound.batteries;
    MeasurementModel model{.circuit = sound.model,
                           .measurements = {},
                           .conditions = {},
                           .condition_of = {},
                           .alternator_deviation = std::max<Voltage>(
                               battery_is_off, (limits.starter_highest - limits.starter_charged) / 3.0),
                           .layout = {}};
    for (const ScreenedMeasurement& one : usable) {
        const std::size_t condition = condition_index(model, sound, one.measurement.condition);
        take_as_read(one, model.conditions[condition]);
        model.measurements.push_back(one.measurement);
        model.condition_of.push_back(condition);
    }
    model.layout = layout_of(sound.model, model.conditions.size());
    return model;
}

Estimate prior_estimate(const MeasurementModel& model) { return {Vector(model.layout.count()), {}}; }

std::vector<Resistance> estimated_resistances(const MeasurementModel& model, const Estimate& estimate,
                                              const std::vector<CircuitFault>& faults) {
    const CircuitModel& circuit = model.circuit;
    std::vector<Resistance> all(circuit.elements.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        const CircuitElement& one = circuit.elements[i];
        const double off = estimate.priors[model.layout.of_element[i]];
        all[i] = std::max<Resistance>(one.expected + off * one.deviation, best_share * one.expected);
    }
    for (std::size_t f = 0; f < faults.size(); ++f) {
        const CircuitFault& fault = faults[f];
        const double magnitude = estimate.magnitudes[f];
        if (is_gross_error(fault)) continue;
        if (fault.kind != FaultKind::gauge) {
            all[fault.index] = std::max<Resistance>(all[fault.index] + milliohms(magnitude), Resistance{});
            continue;
        }
        for (const std::size_t element : circuit.branches[fault.index].elements)
            if (circuit.elements[element].is_cable()) all[element] *= std::max(1.0 + magnitude, best_share);
    }
    return all;
}

SourceState estimated_sources(const MeasurementModel& model, const Estimate& estimate, std::size_t condition) {
    const UnknownLayout& layout = model.layout;
    const MeasuredCondition& known = model.conditions[condition];
    const auto& unknown = estimate.priors;
    const double charge_is_off =
        known.condition.engine == Engine::idling ? charge_is_off_idling : charge_is_off_driving;
    const Voltage starter_is_off = known.condition.charging() ? model.alternator_deviation : battery_is_off;
    SourceState sources{.starter = known.starter + starter_is_off * unknown[layout.starter(condition)],
                        .house = known.house + battery_is_off * unknown[layout.house(condition)],
                        .charge = known.charger_idle ? Current{}
                                                     : model.circuit.charger_output *
                                                           held_below(charge_is_off * unknown[layout.charge(condition)],
                                                                      charger_gives_more),
                        .draws = std::vector<double>(layout.loads.count),
                        .losses = std::exp(losses_may_be_off * unknown[layout.charger_losses.first])};
    for (std::size_t i = 0; i < sources.draws.size(); ++i)
        sources.draws[i] = held_below(load_may_be_off * unknown[layout.loads.first + i], load_takes_more);
    return sources;
}

std::optional<Solution> estimated_solution(const MeasurementModel& model, const Estimate& estimate,
                                           const std::vector<CircuitFault>& faults, std::size_t condition) {
    return solve(model.circuit, model.conditions[condition].condition, estimated_sources(model, estimate, condition),
                 estimated_resistances(model, estimate, faults));
}

std::optional<Vector> predicted(const MeasurementModel& model, const Estimate& estimate,
                                const std::vector<CircuitFault>& faults) {
    const std::vector<Resistance> all = estimated_resistances(model, estimate, faults);
    std::vector<Solution> solutions;
    solutions.reserve(model.conditions.size());
    for (std::size_t i = 0; i < model.conditions.size(); ++i) {
        auto solution = solve(model.circuit, model.conditions[i].condition, estimated_sources(model, estimate, i), all);
        if (!solution) return {};
        solutions.push_back(std::move(*solution));
    }
    Vector answer;
    answer.reserve(model.measurements.size());
    for (std::size_t i = 0; i < model.measurements.size(); ++i)
        answer.push_back(
            predicted_note(model.circuit, model.measurements[i].probe, solutions[model.condition_of[i]], all).number());
    for (std::size_t f = 0; f < faults.size(); ++f)
        if (is_gross_error(faults[f])) answer[faults[f].index] += estimate.magnitudes[f];
    return answer;
}

Vector residuals(const MeasurementModel& model, const Vector& predicted) {
    Vector answer;
    answer.reserve(model.measurements.size());
    for (std::size_t i = 0; i < model.measurements.size(); ++i) {
        const Measurement& one = model.measurements[i];
        answer.push_back((one.value.number() - predicted[i]) / one.uncertainty.number());
    }
    return answer;
}

}  // namespace voltwright

#include "voltwright/diagnosis/next_reading.hpp"

#include "voltwright/diagnosis/run_readings.hpp"
#include "voltwright/diagnosis/test_plan.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

double discrimination(std::span<const MeterValue> predicted, std::span<const double> log_weights,
                      const MeterValue& uncertainty) {
    constexpr double as_good_as_any = 50.0;
    double sum = 0.0;
    for (std::size_t i = 1; i < predicted.size(); ++i) {
        const double apart = (predicted[i] - predicted[0]) / uncertainty;
        sum += std::exp(log_weights[i] - log_weights[0]) * std::min(apart * apart, as_good_as_any);
    }
    return sum;
}

std::optional<std::size_t> most_telling(std::span<const NextCandidate> candidates, std::span<const double> log_weights,
                                        const Meter& meter) {
    std::optional<std::size_t> best;
    double most = least_discrimination;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        const auto& predicted = candidates[i].predicted;
        const double telling = discrimination(predicted, log_weights, meter.uncertainty(predicted.front()));
        if (telling <= most) continue;
        most = telling;
        best = i;
    }
    return best;
}

namespace {

Stage stage_of(const TestCondition& condition) {
    switch (condition.engine) {
        case Engine::off: return Stage::engine_off;
        case Engine::idling: return Stage::idling;
        case Engine::driving: return Stage::driving;
    }
    return Stage::engine_off;
}

/// The branches in which any explanation that is not far behind sees something wrong. A gross error of a clamp is in its run.
std::vector<std::size_t> suspected_branches(const MeasurementModel& model, const SearchStep& rivals) {
    std::vector<std::size_t> branches;
    for (const RankedFit& one : rivals) {
        if (!(one.log_weight > rivals.front().log_weight - far_behind)) break;
        for (const CircuitFault& fault : one.fit.faults) {
            if (!is_gross_error(fault)) {
                branches.push_back(branch_of(model.circuit, fault));
                continue;
            }
            const Probe& probe = model.measurements[fault.index].probe;
            if (const auto* through = std::get_if<Probe::Through>(&probe.what)) branches.push_back(through->branch);
        }
    }
    std::sort(branches.begin(), branches.end());
    branches.erase(std::unique(branches.begin(), branches.end()), branches.end());
    return branches;
}

/// The condition in which most flows through a branch; empty where nothing does in any.
std::optional<std::size_t> busiest(const MeasurementModel& model, const FaultFit& best, std::size_t branch) {
    std::optional<std::size_t> found;
    Current most{};
    for (std::size_t i = 0; i < model.conditions.size(); ++i) {
        const auto solution = estimated_solution(model, best.estimate(), best.faults, i);
        if (!solution || !(solution->current[branch] > most)) continue;
        most = solution->current[branch];
        found = i;
    }
    return found;
}

/// The current, the drop of each side and that of each joint.
std::vector<PlannedReading> readings_of_branch(const CircuitModel& circuit, std::size_t branch,
                                               const TestCondition& condition) {
    const Branch& run = circuit.branches[branch];
    PlannedReading reading{.id = "next",
                           .stage = stage_of(condition),
                           .proves = Proves::current,
                           .run = run.run,
                           .with = condition.with,
                           .range = MeterRange::millivolts};
    std::vector<PlannedReading> all;
    reading.through = run.run;
    all.push_back(reading);
    reading.through.clear();
    reading.proves = Proves::plus_side;
    reading.across = {run.near + " +", run.far + " +"};
    all.push_back(reading);
    reading.proves = Proves::minus_side;
    reading.across = {run.far + " -", run.near + " -"};
    all.push_back(reading);
    reading.proves = Proves::joint;
    for (const std::size_t element : run.elements) {
        const Element& one = circuit.elements[element].element;
        if (one.kind == Element::Kind::cable || one.kind == Element::Kind::body) continue;
        reading.across = {one.name};
        all.push_back(reading);
    }
    return all;
}

bool was_measured(const MeasurementModel& model, const Probe& probe, const TestCondition& condition) {
    return std::any_of(model.measurements.begin(), model.measurements.end(), [&](const Measurement& one) {
        return one.condition == condition && same_probe(one.probe, probe);
    });
}

/// The circuit as one explanation has it; no solution where its loads cannot be fed.
struct Explained {
    std::optional<Solution> solution;
    std::vector<Resistance> resistances;
};

std::vector<Explained> explained_by(const MeasurementModel& model, const SearchStep& rivals, std::size_t condition) {
    std::vector<Explained> all;
    for (const auto& [one, log_weight] : rivals)
        all.push_back({estimated_solution(model, one.estimate(), one.faults, condition),
                       estimated_resistances(model, one.estimate(), one.faults)});
    return all;
}

/// Where loads cannot be fed nothing is shown.
MeterValue predicted_by(const MeasurementModel& model, const Explained& explained, const Probe& probe) {
    if (explained.solution) return predicted_note(model.circuit, probe, *explained.solution, explained.resistances);
    return probe.clamp() ? MeterValue(Current{}) : MeterValue(Voltage{});
}

void add_candidates(const MeasurementModel& model, const SearchStep& rivals, std::size_t branch,
                    std::vector<NextCandidate>& candidates) {
    const auto index = busiest(model, rivals.front().fit, branch);
    if (!index) return;
    const TestCondition& condition = model.conditions[*index].condition;
    const std::vector<Explained> explained = explained_by(model, rivals, *index);
    for (PlannedReading& reading : readings_of_branch(model.circuit, branch, condition)) {
        const auto probe = reading.through.empty() ? probe_across(model.circuit, reading.across)
                                                   : probe_through(model.circuit, reading.through);
        if (!probe || was_measured(model, *probe, condition)) continue;
        NextCandidate candidate{std::move(reading), *probe, condition, {}};
        for (const Explained& one : explained) candidate.predicted.push_back(predicted_by(model, one, *probe));
        candidates.push_back(std::move(candidate));
    }
}

bool same_leads(const PlannedReading& a, const PlannedReading& b) {
    return a.stage == b.stage && a.across == b.across && a.through == b.through && a.with == b.with;
}

/// Of the test plan; the whole of it is worked out for this one.
template <class Wanted>
std::optional<PlannedReading> planned_reading(const SoundVehicle& sound, const PlannedReading& reading, Wanted wanted) {
    for (const PlannedReading& planned : test_plan(sound).readings) {
        if (!same_leads(planned, reading) || !wanted(planned)) continue;
        PlannedReading found = planned;
        found.in_doubt = false;
        return found;
    }
    return {};
}

/// With what a sound vehicle would show there.
PlannedReading as_it_should(const SoundVehicle& sound, const NextCandidate& candidate) {
    const auto planned = planned_reading(sound, candidate.reading, [&](const PlannedReading& one) {
        return one.proves == candidate.reading.proves && one.most;
    });
    if (planned) return *planned;
    PlannedReading reading = candidate.reading;
    const auto limits = reading_limits(sound, candidate.probe, candidate.condition);
    if (!limits || !limits->tolerance) return reading;
    reading.range = range_of(limits->expected);
    reading.expected = limits->expected.measure();
    reading.tolerance = limits->tolerance->measure();
    reading.most = limits->most->measure();
    reading.at = limits->at;
    return reading;
}

}  // namespace

std::optional<PlannedReading> next_reading(const SoundVehicle& sound, const MeasurementModel& model,
                                           const SearchStep& rivals) {
    std::vector<NextCandidate> candidates;
    for (const std::size_t branch : suspected_branches(model, rivals))
        add_candidates(model, rivals, branch, candidates);
    std::vector<double> log_weights;
    for (const RankedFit& one : rivals) log_weights.push_back(one.log_weight);
    const auto best = most_telling(candidates, log_weights, sound.meter);
    if (!best) return {};
    return as_it_should(sound, candidates[*best]);
}

PlannedReading reading_for(const SoundVehicle& sound, const ProposedReading& proposed) {
    PlannedReading reading{.id = "next",
                           .stage = stage_of(proposed.condition),
                           .proves = proposed.proves,
                           .run = proposed.run,
                           .across = proposed.across,
                           .through = proposed.through,
                           .with = proposed.condition.with,
                           .range = proposed.probe.clamp() ? MeterRange::amperes : MeterRange::volts};
    const auto planned = planned_reading(sound, reading, [](const PlannedReading& one) { return !!one.expected; });
    if (planned) return *planned;
    if (proposed.probe.clamp()) return reading;
    // Half a volt is lost on no sound way; the battery is as it was found.
    if (proposed.probe.drop()) {
        reading.expected = Measure{Voltage{}};
        reading.tolerance = reading.most = Measure{volts(0.5)};
    } else {
        reading.expected = Measure{rested_starter};
        reading.least = Measure{fed_least};
    }
    return reading;
}

}  // namespace voltwright

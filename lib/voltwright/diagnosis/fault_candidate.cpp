#include "voltwright/diagnosis/fault_candidate.hpp"

#include "voltwright/planning/plan.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

/// More unsure than it is large, and others explain it so much better: no finding.
constexpr double explained_better = 0.3;

/// The size whose resistance is nearest to so many times that of the run's own; empty where that is the run's own.
std::optional<Gauge> nearest_size(const SoundVehicle& sound, std::size_t branch, double times) {
    const Candidate* taken = sound.plan.runs[sound.model.branches[branch].plan_run].taken();
    if (!taken) return {};
    const auto own = conductor_of(sound.tables, taken->size);
    if (!own) return {};
    const auto resistance = [](const ConductorRow& row) {
        return resistance_per_length(row, Coating::plain, celsius(20));
    };
    std::optional<Gauge> nearest;
    double least = 0.0;
    for (const ConductorRow& row : sound.tables.conductors) {
        if (row.gauge.system != taken->size.system) continue;
        const double off = std::abs(std::log(in_ratio(resistance(row) / resistance(*own)) / times));
        if (nearest && !(off < least)) continue;
        nearest = row.gauge;
        least = off;
    }
    return nearest == taken->size ? std::nullopt : nearest;
}

Current most_current(const MeasurementModel& model, const FaultFit& fit, std::size_t branch) {
    Current most{};
    for (std::size_t i = 0; i < model.conditions.size(); ++i)
        if (const auto solution = estimated_solution(model, fit.estimate(), fit.faults, i))
            most = std::max(most, solution->current[branch]);
    return most;
}

/// The resistance of one unit of a fault's magnitude: a milliohm, or the cables of a run.
Resistance unit_of(const CircuitModel& circuit, const CircuitFault& fault) {
    if (fault.kind != FaultKind::gauge) return milliohms(1.0);
    Resistance cables{};
    for (const std::size_t element : circuit.branches[fault.index].elements)
        if (circuit.elements[element].is_cable()) cables += circuit.elements[element].expected;
    return cables;
}

bool same_thing(const FaultCandidate& a, const FaultCandidate& b) {
    return a.element == b.element && a.run == b.run && a.kind == b.kind && a.measurement == b.measurement;
}

/// An alternative that is neither known nor too unsure to tell.
bool is_worth_telling(const FaultCandidate& candidate, const std::vector<FaultCandidate>& known) {
    if (std::any_of(known.begin(), known.end(), [&](const auto& one) { return same_thing(one, candidate); }))
        return false;
    return !(candidate.extra && *candidate.uncertainty > *candidate.extra && candidate.odds < explained_better);
}

}  // namespace

FaultCandidate fault_candidate(const SoundVehicle& sound, const MeasurementModel& model, const FaultFit& fit,
                               std::size_t which) {
    const CircuitModel& circuit = model.circuit;
    const CircuitFault& fault = fit.faults[which];
    const double magnitude = fit.estimate().magnitudes[which];
    FaultCandidate candidate{.kind = fault.kind};
    if (is_gross_error(fault)) {
        const Measurement& measurement = model.measurements[fault.index];
        candidate.measurement = measurement.number;
        candidate.too_little = magnitude < 0.0 && measurement.probe.drop();
        return candidate;
    }
    const std::size_t branch = branch_of(circuit, fault);
    candidate.run = circuit.branches[branch].run;
    if (fault.kind == FaultKind::gauge) {
        candidate.looks_like = nearest_size(sound, branch, 1.0 + magnitude);
    } else {
        candidate.element = circuit.elements[fault.index].element.name;
        candidate.fuse = circuit.elements[fault.index].element.kind == Element::Kind::fuse;
    }
    const Resistance unit = unit_of(circuit, fault);
    const double deviation = std::sqrt(std::max(fit.fit.covariance(which, which), 0.0));
    candidate.extra = magnitude * unit;
    candidate.uncertainty = nineteen_in_twenty * deviation * unit;
    const Current most = most_current(model, fit, branch);
    candidate.at = most;
    candidate.heat = most * most * *candidate.extra;
    return candidate;
}

std::vector<FaultCandidate> fault_candidates(const SoundVehicle& sound, const MeasurementModel& model,
                                             const FoundFaults& found) {
    std::vector<FaultCandidate> all;
    for (std::size_t f = 0; f < found.best.faults.size(); ++f) {
        all.push_back(fault_candidate(sound, model, found.best, f));
        all.back().identified = found.identified[f];
    }
    std::vector<FaultCandidate> others;
    for (const Alternative& one : found.alternatives) {
        others.push_back(fault_candidate(sound, model, one.fit, one.fault));
        others.back().odds = one.odds;
    }
    std::stable_sort(others.begin(), others.end(),
                     [](const FaultCandidate& a, const FaultCandidate& b) { return a.odds > b.odds; });
    for (FaultCandidate& other : others)
        if (is_worth_telling(other, all)) all.push_back(std::move(other));
    return all;
}

}  // namespace voltwright

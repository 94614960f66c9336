#include "voltwright/diagnosis/diagnose.hpp"

#include "voltwright/diagnosis/comparison.hpp"
#include "voltwright/diagnosis/fault_candidate.hpp"
#include "voltwright/diagnosis/next_reading.hpp"
#include "voltwright/diagnosis/reading_limits.hpp"

#include <algorithm>

namespace voltwright {

namespace {

Verdict verdict_of(const MeasurementModel& model, const FoundFaults& found) {
    if (!explains_everything(model, found.best)) return Verdict::contradiction;
    const auto& faults = found.best.faults;
    if (faults.empty()) return Verdict::nothing_wrong;
    if (found.open) return Verdict::several;
    return std::all_of(faults.begin(), faults.end(), is_gross_error) ? Verdict::contradiction : Verdict::found;
}

/// What the measurements say together.
Diagnosis estimated(const SoundVehicle& sound, const MeasurementModel& model) {
    Diagnosis diagnosis;
    const auto found = search_faults(model);
    if (!found) {
        diagnosis.verdict = Verdict::contradiction;
        return diagnosis;
    }
    diagnosis.verdict = verdict_of(model, *found);
    if (found->open) diagnosis.next = next_reading(sound, model, *found->open);
    if (diagnosis.verdict != Verdict::nothing_wrong) diagnosis.candidates = fault_candidates(sound, model, *found);
    diagnosis.comparisons = comparisons_of(model, found->best);
    return diagnosis;
}

/// Is there anything in which a joint could show?
bool is_enough(const std::vector<ScreenedMeasurement>& usable) {
    return std::any_of(usable.begin(), usable.end(), [&](const ScreenedMeasurement& one) {
        const TestCondition& condition = one.measurement.condition;
        return !one.measurement.probe.clamp() && (condition.charger_runs() || !condition.with.empty());
    });
}

const Measurement* measurement_of(const std::vector<Measurement>& measurements, std::size_t number) {
    for (const Measurement& one : measurements)
        if (one.number == number) return &one;
    return nullptr;
}

void add_beyond(std::vector<Anomaly> beyond, Diagnosis& diagnosis) {
    const auto& told = diagnosis.anomalies;
    for (Anomaly& anomaly : beyond) {
        // What flows where nothing is on has been told.
        const bool known = std::any_of(told.begin(), told.end(), [&](const Anomaly& one) {
            return one.grave() && one.measurement == anomaly.measurement;
        });
        anomaly.explained = diagnosis.names_faults();
        if (!known) diagnosis.anomalies.push_back(std::move(anomaly));
    }
}

/// A reading beyond its limit is compared with that.
void compare_with_limits(const SoundVehicle& sound, const std::vector<Measurement>& measurements,
                         std::vector<Comparison>& comparisons) {
    for (Comparison& row : comparisons) {
        const Measurement& one = *measurement_of(measurements, row.measurement);
        const auto right = reading_limits(sound, one.probe, one.condition);
        const auto passed = right ? right->passed_by(one.value) : std::nullopt;
        if (!passed) continue;
        row.beyond = true;
        row.expected = right->expected;
        row.tolerance = right->tolerance.value_or((*passed - right->expected).size());
    }
}

void gravest_first(std::vector<Anomaly>& anomalies) {
    std::stable_sort(anomalies.begin(), anomalies.end(),
                     [](const Anomaly& a, const Anomaly& b) { return a.kind < b.kind; });
}

/// A grave anomaly decides where the estimate sees nothing, or nothing but a contradiction of one reading.
void let_anomalies_decide(std::size_t usable, Diagnosis& diagnosis) {
    const bool grave = std::any_of(diagnosis.anomalies.begin(), diagnosis.anomalies.end(),
                                   [](const Anomaly& one) { return one.grave(); });
    const bool unexplained = diagnosis.candidates.empty() || usable < 2;
    const bool silent = diagnosis.verdict == Verdict::nothing_wrong || diagnosis.verdict == Verdict::too_little ||
                        (diagnosis.verdict == Verdict::contradiction && unexplained);
    if (!grave || !silent) return;
    diagnosis.verdict = Verdict::told_by_one;
    diagnosis.candidates.clear();
}

/// The current beside a drop that is beyond its limit: it tells whether there is too much resistance or too much current.
std::optional<ProposedReading> current_beside_drop(const CircuitModel& model,
                                                   const std::vector<Measurement>& measurements,
                                                   const std::vector<Anomaly>& anomalies) {
    for (const Anomaly& anomaly : anomalies) {
        if (anomaly.kind != Anomaly::Kind::beyond_limit || !anomaly.drop || anomaly.flows) continue;
        const Measurement* drop = measurement_of(measurements, anomaly.measurement);
        const auto probe = drop ? probe_through(model, anomaly.run) : std::nullopt;
        if (!probe) continue;
        return ProposedReading{.probe = *probe,
                               .condition = drop->condition,
                               .through = anomaly.run,
                               .run = anomaly.run,
                               .proves = Proves::current};
    }
    return {};
}

/// The break comes first: what lies behind it cannot be judged.
void propose_next(const SoundVehicle& sound, const std::vector<Measurement>& measurements,
                  std::optional<ProposedReading> at_break, Diagnosis& diagnosis) {
    if (!at_break && !diagnosis.next && diagnosis.verdict == Verdict::told_by_one)
        at_break = current_beside_drop(sound.model, measurements, diagnosis.anomalies);
    if (at_break) diagnosis.next = reading_for(sound, *at_break);
}

bool tells_of_24_volts(const Anomaly& anomaly) { return anomaly.kind == Anomaly::Kind::other_voltage; }

/// Of a 24 V vehicle nothing that was read is held against a plan for 12 V.
Diagnosis of_24_volts(std::vector<Anomaly> anomalies) {
    Diagnosis diagnosis;
    std::erase_if(anomalies, [](const Anomaly& one) { return !tells_of_24_volts(one); });
    diagnosis.anomalies = std::move(anomalies);
    diagnosis.verdict = Verdict::told_by_one;
    return diagnosis;
}

}  // namespace

Diagnosis diagnose(const CircuitModel& model, const std::vector<Measurement>& measurements, const System& system,
                   const Plan& plan, const Tables& tables) {
    const SoundVehicle sound = sound_vehicle(model, system, plan, tables);
    ScreenedMeasurements screened = screen(sound, measurements);
    if (std::any_of(screened.anomalies.begin(), screened.anomalies.end(), tells_of_24_volts))
        return of_24_volts(std::move(screened.anomalies));
    std::vector<Anomaly> beyond = beyond_limits(sound, measurements, screened);
    take_out_idle(sound, screened);
    Diagnosis diagnosis;
    if (is_enough(screened.usable)) diagnosis = estimated(sound, measurement_model(sound, screened.usable));
    diagnosis.anomalies = std::move(screened.anomalies);
    add_beyond(std::move(beyond), diagnosis);
    compare_with_limits(sound, measurements, diagnosis.comparisons);
    gravest_first(diagnosis.anomalies);
    let_anomalies_decide(screened.usable.size(), diagnosis);
    propose_next(sound, measurements, std::move(screened.next), diagnosis);
    return diagnosis;
}

std::vector<std::size_t> not_judged_readings(const System& system) {
    std::vector<std::size_t> readings;
    for (std::size_t i = 0; system.relay && i < system.readings.size(); ++i)
        if (system.readings[i].engine != Engine::off) readings.push_back(i);
    return readings;
}

Diagnosis diagnose(const System& system, const Plan& plan, const Tables& tables) {
    const CircuitModel model = circuit_model_of(system, plan, tables);
    std::vector<Anomaly> anomalies;
    const std::vector<Measurement> measurements = measurements_of(model, system, anomalies);
    Diagnosis diagnosis = diagnose(model, measurements, system, plan, tables);
    diagnosis.anomalies.insert(diagnosis.anomalies.end(), anomalies.begin(), anomalies.end());
    gravest_first(diagnosis.anomalies);
    return diagnosis;
}

}  // namespace voltwright

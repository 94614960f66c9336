#include "voltwright/diagnosis/comparison.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

/// Of the range's unknowns, in squared uncertainties of the measurement.
double variance_of(const Matrix& slopes, std::size_t measurement, const UnknownRange& range) {
    double sum = 0.0;
    for (std::size_t i = range.first; i < range.end(); ++i) sum += slopes(measurement, i) * slopes(measurement, i);
    return sum;
}

/// Joints and cables as they should be; batteries, charger and loads as they are.
Estimate without_faults(const MeasurementModel& model, const Estimate& found) {
    Estimate sound = found;
    std::fill(sound.magnitudes.begin(), sound.magnitudes.end(), 0.0);
    const UnknownRange& range = model.layout.resistances;
    for (std::size_t i = range.first; i < range.end(); ++i) sound.priors[i] = 0.0;
    return sound;
}

}  // namespace

std::vector<Comparison> comparisons_of(const MeasurementModel& model, const FaultFit& best) {
    const Estimate sound = without_faults(model, best.estimate());
    const auto expected = predicted(model, sound, best.faults);
    const auto explained = predicted(model, best.estimate(), best.faults);
    const auto slopes = jacobian(model, sound, {}, {});
    if (!expected || !explained || !slopes) return {};
    std::vector<Comparison> all;
    for (std::size_t i = 0; i < model.measurements.size(); ++i) {
        const Measurement& one = model.measurements[i];
        const double variance = 1.0 + variance_of(slopes->priors, i, model.layout.resistances);
        const MeterValue tolerance =
            one.value.of_same_unit(nineteen_in_twenty * one.uncertainty.number() * std::sqrt(variance));
        all.push_back({.measurement = one.number,
                       .shown = one.value,
                       .expected = one.value.of_same_unit((*expected)[i]),
                       .tolerance = tolerance,
                       .explained = one.value.of_same_unit((*explained)[i])});
    }
    return all;
}

}  // namespace voltwright

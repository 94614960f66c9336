#pragma once

#include "voltwright/diagnosis/measurement_model.hpp"

#include <optional>
#include <vector>

namespace voltwright {

/// The circuit fitted to its measurements with some faults.
struct FaultFit {
    std::vector<CircuitFault> faults;
    LeastSquaresFit fit;

    [[nodiscard]] const Estimate& estimate() const { return fit.estimate; }
    [[nodiscard]] double chi_squared() const { return fit.chi_squared; }
    [[nodiscard]] bool has(const CircuitFault& fault) const;
};

/// From an estimate at hand. Empty when it leads nowhere.
std::optional<FaultFit> fit_faults(const MeasurementModel& model, std::vector<CircuitFault> faults, Estimate from);

/// With one fault more, begun from where the others have led and from what should be: the ones at hand may have been led
/// astray by this fault. The better of the two.
std::optional<FaultFit> fit_with_one_more(const MeasurementModel& model, const FaultFit& before,
                                          const CircuitFault& fault);

/// A fault, and by how much χ² would fall with it as the slopes have it here.
struct ScoredFault {
    CircuitFault fault;
    double gain;
    double log_weight;  ///< with how likely such a fault is beforehand
};

/// All faults beside those of a fit, the likeliest first. A resistance that would have to be less than it should is no fault.
std::vector<ScoredFault> score_faults(const MeasurementModel& model, const FaultFit& fit);

/// Is what is left within what chance leaves? χ² of as many readings, less those that the faults use up, some four standard
/// deviations above its mean.
bool explains_everything(const MeasurementModel& model, const FaultFit& fit);

}  // namespace voltwright

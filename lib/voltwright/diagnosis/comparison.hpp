#pragma once

#include "voltwright/diagnosis/diagnosis.hpp"
#include "voltwright/diagnosis/fault_fit.hpp"

#include <vector>

namespace voltwright {

/// What a sound vehicle would show from the same batteries and loads, beside what was shown. Empty where its loads cannot be
/// fed.
std::vector<Comparison> comparisons_of(const MeasurementModel& model, const FaultFit& best);

}  // namespace voltwright

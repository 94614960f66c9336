#pragma once

#include "voltwright/diagnosis/diagnosis.hpp"
#include "voltwright/diagnosis/fault_search.hpp"

#include <vector>

namespace voltwright {

/// What was found, the faults of the best explanation first, then what else it may be, the likeliest first.
std::vector<FaultCandidate> fault_candidates(const SoundVehicle& sound, const MeasurementModel& model,
                                             const FoundFaults& found);

/// One fault of a fit, by its name in the vehicle.
FaultCandidate fault_candidate(const SoundVehicle& sound, const MeasurementModel& model, const FaultFit& fit,
                               std::size_t fault);

}  // namespace voltwright

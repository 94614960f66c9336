#pragma once

#include "voltwright/diagnosis/circuit_solution.hpp"
#include "voltwright/diagnosis/meter_value.hpp"
#include "voltwright/diagnosis/probe.hpp"

#include <span>

namespace voltwright {

/// What a meter without an error shows at a probe. Resistances are those that the circuit was solved with.
MeterValue predicted_reading(const CircuitModel& model, const Probe& probe, const Solution& solution,
                             std::span<const Resistance> resistances);

/// The same as it is noted: a drop without its sign, for its leads may be either way round.
MeterValue predicted_note(const CircuitModel& model, const Probe& probe, const Solution& solution,
                          std::span<const Resistance> resistances);

}  // namespace voltwright

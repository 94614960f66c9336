#pragma once

#include "voltwright/diagnosis/test_condition.hpp"

#include <optional>
#include <span>
#include <vector>

namespace voltwright {

/// Potentials at the far end of each branch against the negative post of its battery, and the current through it.
struct Solution {
    std::vector<Voltage> plus, minus;
    std::vector<Current> current;           ///< away from the battery; through the run from the charger, towards it
    Voltage output_plus{}, output_minus{};  ///< at the charger's output
    Voltage starter{}, house{};
};

/// The circuit solved: the charger's output first, as a current into the house battery, then the tree of each battery by
/// `solve_network`. The charger takes constant power at the end of its feed, but never more current than that power is at
/// the voltage at which it gives up, nor more than its input limit.
///
/// Resistances are those of the model's elements, in their order. Empty when the loads cannot be fed, for batteries without
/// a voltage, and for figures that no vehicle has (a search may ask for them).
std::optional<Solution> solve(const CircuitModel& model, const TestCondition& condition, const SourceState& sources,
                              std::span<const Resistance> resistances);

}  // namespace voltwright

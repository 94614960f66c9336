#pragma once

#include "voltwright/planning/energy_plan.hpp"
#include "voltwright/tables/practice.hpp"

#include <optional>

namespace voltwright {

/// What a 12 V battery that has rested for hours may read at all, whatever it is made of. data/practice/voltages.toml.
inline const Voltage least_at_rest = in_practice(PracticeVoltage::least_at_rest),
                     most_at_rest = in_practice(PracticeVoltage::most_at_rest);

/// Why a question of how long everything runs has no answer.
enum class AutonomyFault {
    no_state_of_charge,  ///< `from` is not above 0 % and at most 100 %
    not_at_rest,         ///< `rested` is not between least_at_rest and most_at_rest
    charging,            ///< `rested` is more than such a battery reads that has rested
};

/// Of the question by itself.
std::optional<AutonomyFault> fault_of(const AutonomyQuestion& question);

/// Of the question as it is asked of this vehicle.
std::optional<AutonomyFault> fault_of(const AutonomyQuestion& question, const System& system,
                                      const Tables& tables = built_in_tables());

}  // namespace voltwright

#include "voltwright/planning/autonomy_question.hpp"

#include "voltwright/energy/battery_tables.hpp"

namespace voltwright {

std::optional<AutonomyFault> fault_of(const AutonomyQuestion& question) {
    const auto& [from, rested, at] = question;
    if (from && (!(*from > Ratio{}) || *from > Ratio{1.0})) return AutonomyFault::no_state_of_charge;
    if (rested && !(*rested >= least_at_rest && *rested <= most_at_rest)) return AutonomyFault::not_at_rest;
    return {};
}

std::optional<AutonomyFault> fault_of(const AutonomyQuestion& question, const System& system, const Tables& tables) {
    if (const auto fault = fault_of(question)) return fault;
    const auto highest = highest_at_rest(tables, system.house.chemistry->chemistry);
    if (highest && question.rested > *highest) return AutonomyFault::charging;
    return {};
}

}  // namespace voltwright

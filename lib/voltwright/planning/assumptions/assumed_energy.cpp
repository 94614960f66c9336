#include "voltwright/planning/assumptions/assume.hpp"

namespace voltwright {

namespace {

using Kind = FindingSubject::Kind;

/// Fridges that were measured at one temperature alone.
void assume_fridges(const EnergyPlan& energy, const Tables& tables, Assumptions& assumed) {
    for (const FridgeNeed& fridge : energy.fridges)
        if (!fridge.fridge.by_rule_of_thumb && fridge.fridge.fit == FridgeFit::assumed_share)
            assumed.push_back({.code = AssumptionCode::fridge_one_point,
                               .about = {Kind::load, {fridge.name}},
                               .found = fridge.a_day_hot,
                               .source = tables.fridges.front().source});
}

/// The capacity of a starter battery that feeds loads, where these leave it far from its limit.
void assume_starter_capacity(const EnergyPlan& energy, Assumptions& assumed) {
    if (!energy.starter || !energy.starter->capacity_assumed || energy.starter->near_limit()) return;
    assumed.push_back({.code = AssumptionCode::starter_capacity_assumed,
                       .about = {Kind::starter_battery},
                       .found = energy.starter->capacity,
                       .source = energy.starter->source});
}

}  // namespace

Assumptions assumed_in_energy(const EnergyPlan& energy, const Tables& tables) {
    Assumptions assumed;
    assume_fridges(energy, tables, assumed);
    assume_starter_capacity(energy, assumed);
    return assumed;
}

}  // namespace voltwright

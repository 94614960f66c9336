#include "voltwright/planning/assumptions/assume.hpp"
#include "voltwright/planning/findings/sources.hpp"

#include <algorithm>
#include <utility>

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

/// What stands in the heat: few of these parts are made for more. Common practice, no source.
constexpr Temperature hot = celsius(45);

void assume_hot_places(const EnergyPlan& energy, Assumptions& assumed) {
    const auto tell = [&](FindingSubject about, Temperature around) {
        if (around > hot)
            assumed.push_back({.code = AssumptionCode::hot_place,
                               .about = std::move(about),
                               .found = around,
                               .source = sources::practice});
    };
    const auto told = [](const Finding& one) {
        return one.code == FindingCode::battery_too_hot || one.code == FindingCode::too_hot_to_charge;
    };
    if (std::none_of(energy.findings.begin(), energy.findings.end(), told))
        tell({Kind::house_battery}, energy.warmth.battery);
    if (energy.warmth.at_charger) tell({Kind::charger}, *energy.warmth.at_charger);
    for (const FridgeNeed& fridge : energy.fridges) tell({Kind::load, {fridge.name}}, fridge.hottest);
}

}  // namespace

Assumptions assumed_in_energy(const EnergyPlan& energy, const Tables& tables) {
    Assumptions assumed;
    assume_fridges(energy, tables, assumed);
    assume_hot_places(energy, assumed);
    assume_starter_capacity(energy, assumed);
    return assumed;
}

}  // namespace voltwright

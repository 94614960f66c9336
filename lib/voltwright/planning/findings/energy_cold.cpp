#include "voltwright/planning/cold.hpp"
#include "voltwright/planning/findings/energy_concerns.hpp"
#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/units/show.hpp"

#include <utility>

namespace voltwright {

namespace {

Finding about_cold_battery(Level level, FindingCode code, const EnergyContext& of) {
    return {.level = level,
            .code = code,
            .about = {FindingSubject::Kind::house_battery},
            .source = of.system.house.chemistry->source,
            .concern = Concern::trip};
}

Argument charges_above(const EnergyContext& of) { return {"charges_above", *of.system.house.charge_above}; }

Remedy with_heater(const EnergyContext& of, Power heater, bool or_a_warm_place) {
    RemedyStep step{of.system.house.heater ? RemedyCode::larger_heater : RemedyCode::heater_warms,
                    {{"heater", heater}}};
    if (or_a_warm_place) step.arguments.push_back(charges_above(of));
    return {{std::move(step)}, {{"battery.heater", write(Spread<Power>{heater, {}})}}};
}

Remedy warmer(const EnergyContext& of, RemedyCode code) { return {{{code, {charges_above(of)}}}, {}}; }

/// So that it is charged at all, whether the trip holds or not.
Remedy so_that_it_charges(const EnergyContext& of) {
    const auto& frost = of.energy.frost;
    const Remedy refuses{{{RemedyCode::see_that_it_refuses, {}}}, {}};
    // A trip that fails has the cure beside what stops it.
    if (!frost || !of.energy.trip.holds()) return refuses;
    const auto& heater = frost->holding ? frost->holding : frost->heater;
    // The place may be warm, and the trip fail for another reason.
    return heater ? with_heater(of, *heater, true) + refuses : warmer(of, RemedyCode::warm_place) + refuses;
}

}  // namespace

std::optional<Remedy> against_frost(const EnergyContext& of) {
    const auto& frost = of.energy.frost;
    if (!frost) return {};
    const Remedy why{{{RemedyCode::frost_keeps_charge_out, {}}}, {}};
    if (frost->holding) return why + with_heater(of, *frost->holding, frost->holds_in_the_warmth);
    return why + warmer(of, frost->holds_in_the_warmth ? RemedyCode::warm_place : RemedyCode::warm_then_more);
}

void find_lithium_too_cold(const EnergyContext& of, Findings& found) {
    const Warmth& warmth = of.energy.warmth;
    if (!(warmth.too_cold_to_charge > Duration{})) return;
    // A heater that warms it in time is told among what was assumed.
    if (of.system.house.heater && !hardly_charged(warmth)) return;
    Finding one = about_cold_battery(Level::warn, FindingCode::too_cold_to_charge, of);
    one.found = warmth.too_cold_to_charge;
    one.allowed = warmth.sourced;
    one.arguments = {charges_above(of)};
    one.remedy = so_that_it_charges(of);
    found.push_back(std::move(one));
}

void find_battery_in_the_cold(const EnergyContext& of, Findings& found) {
    const auto& least = of.system.house.chemistry->gives_above;
    if (!least || !(of.energy.warmth.coldest < *least) || of.energy.house_idle()) return;
    Finding one = about_cold_battery(Level::stop, FindingCode::battery_too_cold, of);
    one.found = of.energy.warmth.coldest;
    one.allowed = *least;
    one.concern = Concern::engine_off;
    found.push_back(std::move(one));
}

void find_charge_in_the_cold(const EnergyContext& of, Findings& found) {
    const auto& bears = of.energy.warmth.bears_least;
    // Through a relay flows what the volts of both batteries let through.
    if (!bears || !of.drives() || of.system.relay || !(of.energy.charger.output > bears->limit)) return;
    Finding one = about_cold_battery(Level::warn, FindingCode::charged_in_the_cold, of);
    one.found = of.energy.charger.output;
    one.allowed = bears->limit;
    one.arguments = {{"at", bears->below}};
    one.remedy.steps = {{RemedyCode::weaker_charger_or_warmer, {}}};
    one.source = of.tables.cold_charge_limits.front().source;
    found.push_back(std::move(one));
}

std::optional<Finding> freezing_acid(const EnergyContext& of, const std::optional<NearFreezing>& near) {
    // Colder places, a thermometer's error and a cell that is weaker than the rest. Common practice, no source.
    constexpr TemperatureRise margin = kelvins(5);
    if (!near || near->battery > near->freezes + margin) return {};
    Finding one = about_cold_battery(Level::stop, FindingCode::acid_freezes, of);
    one.found = near->battery;
    one.allowed = near->freezes;
    one.arguments = {{"soc", near->soc}, {"at", near->at}, {"more_charge", more_charge(of)}};
    const auto keep = charge_that_freezes_at(of.energy.battery, of.energy.warmth.coldest - margin);
    if (keep && *keep < Ratio{1.0}) one.arguments.push_back({"keep", *keep});
    one.source = of.tables.electrolyte_freezing.front().source;
    return one;
}

void find_freezing_acid(const EnergyContext& of, Findings& found) {
    if (auto one = freezing_acid(of, of.energy.trip.near_freezing)) found.push_back(*std::move(one));
}

}  // namespace voltwright

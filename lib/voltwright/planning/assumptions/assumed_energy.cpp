#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/planning/assumptions/assume.hpp"
#include "voltwright/planning/cold.hpp"
#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/tables/practice.hpp"

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

/// Fridges into which nothing warm goes when the trip starts, or whose lid nobody counted.
void assume_cold_starts(const EnergyPlan& energy, const Tables& tables, Assumptions& assumed) {
    const FridgeRow& row = tables.fridges.front();
    for (const FridgeNeed& fridge : energy.fridges) {
        const auto& told = energy.cool_first;
        if (!fridge.starts_cold || std::find(told.begin(), told.end(), fridge.name) != told.end()) continue;
        const Restocking& filling = fridge.warm_start;
        Arguments arguments{{"mass", filling.mass}, {"from", filling.from}};
        if (!fridge.lid_counted) {
            arguments.push_back({"times", fridge.lid.a_day});
            arguments.push_back({"lid", fridge.lid.electric / fridge.counted_at});
        }
        assumed.push_back({.code = AssumptionCode::fridge_starts_cold,
                           .about = {Kind::load, {fridge.name}},
                           .found = filling.electric / fridge.counted_at,
                           .arguments = std::move(arguments),
                           .source = row.source});
    }
}

/// Loads without hours, where that does not decide.
void assume_hours(const UntimedLoads& untimed, Assumptions& assumed) {
    if (!untimed.on.empty())
        assumed.push_back({.code = AssumptionCode::load_always_on,
                           .about = {Kind::load, untimed.on},
                           .found = untimed.on_a_day,
                           .source = sources::practice});
    if (untimed.off.empty() || untimed.decide()) return;
    Assumption off{.code = AssumptionCode::load_off,
                   .about = {Kind::load, untimed.off},
                   .found = untimed.off_an_hour,
                   .source = sources::practice};
    // A limit that nobody reaches is not told.
    if (untimed.bearable && *untimed.bearable < hours(12)) off.arguments.push_back({"bearable", *untimed.bearable});
    assumed.push_back(std::move(off));
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

/// What the cold leaves of the battery, where that is felt. Common practice, no source.
void assume_cold_battery(const EnergyPlan& energy, const Tables& tables, Assumptions& assumed) {
    constexpr Temperature felt_below = celsius(5);
    const Temperature coldest = energy.warmth.coldest;
    if (!(coldest < felt_below) || energy.house_idle()) return;
    Assumption one{.code = AssumptionCode::battery_cold,
                   .about = {Kind::house_battery},
                   .found = coldest,
                   .allowed = capacity_factor(tables, energy.battery.chemistry, coldest),
                   .source = find_chemistry(tables, energy.battery.chemistry)->source};
    if (energy.battery.acceptance_halves && energy.warmth.sourced > Duration{})
        one.arguments = {{"charging", Ratio{1.0 / cold_acceptance(energy.battery, coldest)}}};
    assumed.push_back(std::move(one));
}

void assume_heater(const EnergyPlan& energy, const Tables& tables, Assumptions& assumed) {
    const Warmth& warmth = energy.warmth;
    const bool heated =
        std::any_of(energy.trip.served.begin(), energy.trip.served.end(),
                    [&](const ConsumerResult& one) { return one.name == battery_heater_name && one.used > Charge{}; });
    if (!heated || !warmth.to_warm || hardly_charged(warmth)) return;
    assumed.push_back({.code = AssumptionCode::battery_heater,
                       .about = {Kind::house_battery},
                       .found = *warmth.to_warm,
                       .source = tables.battery_heaters.front().source});
}

/// A sensor that nobody told of, where the trip holds without it too and is the poorer for it.
void assume_sensor(const EnergyPlan& energy, Assumptions& assumed) {
    constexpr Ratio poorer = 0.02;
    const auto& bare = energy.without_sensor;
    if (!bare || !energy.trip.holds() || !bare->holds || !(bare->lowest < energy.trip.lowest - poorer)) return;
    assumed.push_back({.code = AssumptionCode::sensor_assumed,
                       .about = {Kind::charger},
                       .found = bare->lowest,
                       .source = sources::practice});
}

/// What a DC-DC charger draws, where nobody says what the alternator has to spare.
void assume_spare(const EnergyPlan& energy, const System& system, Assumptions& assumed) {
    if (!energy.driving || !system.has_charger() || system.starter.spare_current) return;
    if (!(energy.charger.output > Current{})) return;
    assumed.push_back({.code = AssumptionCode::charger_spare,
                       .about = {Kind::starter_battery},
                       .found = energy.charger.input,
                       .source = sources::practice});
}

void assume_sky(const EnergyPlan& energy, Assumptions& assumed) {
    const auto& sky = energy.assumed_sky;
    if (sky && !sky->decides)
        assumed.push_back({.code = AssumptionCode::sky,
                           .about = {Kind::sun},
                           .found = sky->usual,
                           .arguments = {{"least", sky->least}, {"most", sky->most}},
                           .source = sky->source});
}

}  // namespace

void assume_new_battery(const std::optional<WornBattery>& worn, Assumptions& assumed) {
    if (!worn || worn->fails_trip) return;
    assumed.push_back({.code = AssumptionCode::battery_new,
                       .about = {Kind::house_battery},
                       .found = worn->autonomy.lasts,
                       .arguments = {{"worn", worn->health}, {"soc", worn->autonomy.from}},
                       .source = practice(built_in_tables(), PracticeShare::worn_capacity).source});
}

void assume_idling(const EnergyPlan& energy, const System& system, Assumptions& assumed) {
    const ChargerPoint &usual = energy.charger, &idle = energy.idling;
    if (!energy.driving || !(usual.output > Current{})) return;
    // Less than this nobody would notice. Common practice, no source.
    constexpr Ratio noticed = 0.9;
    if (!(idle.output < noticed * usual.output)) return;
    assumed.push_back({.code = AssumptionCode::idling,
                       .about = {system.relay ? Kind::relay : Kind::charger},
                       .found = idle.source,
                       .allowed = usual.output,
                       .arguments = {{"gives", idle.output}},
                       .source = practice(built_in_tables(), PracticeVoltage::hot_idle).source});
}

Assumptions assumed_in_energy(const EnergyPlan& energy, const System& system, const Tables& tables) {
    Assumptions assumed;
    assume_new_battery(energy.worn, assumed);
    assume_idling(energy, system, assumed);
    assume_spare(energy, system, assumed);
    assume_fridges(energy, tables, assumed);
    assume_cold_starts(energy, tables, assumed);
    assume_hours(energy.untimed, assumed);
    assume_sky(energy, assumed);
    assume_hot_places(energy, assumed);
    assume_cold_battery(energy, tables, assumed);
    assume_heater(energy, tables, assumed);
    assume_sensor(energy, assumed);
    assume_starter_capacity(energy, assumed);
    return assumed;
}

}  // namespace voltwright

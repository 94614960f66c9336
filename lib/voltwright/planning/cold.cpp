#include "voltwright/planning/cold.hpp"

#include "voltwright/simulation/build_scenario.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// Heaters that are sold, or several of them side by side.
constexpr double heaters_W[] = {20, 40, 60, 80, 120, 160, 200, 300, 400};

/// Below it a charger without a sensor leaves lead less than full. Common practice, no source.
constexpr Temperature sensor_matters_below = celsius(15);

/// So far above where it takes charge a place is warm.
constexpr TemperatureRise warm_place = kelvins(5);

bool has_source(const Interval& interval) { return interval.driving || interval.sun > Power{}; }

void note_limit(const Interval& interval, Warmth& warmth) {
    if (!interval.takes_charge || !interval.charge_limit) return;
    if (!warmth.bears_least || *interval.charge_limit < warmth.bears_least->limit)
        warmth.bears_least = ColdChargeLimit{interval.battery, *interval.charge_limit};
}

void note_charging(const Interval& interval, const HouseBattery& battery, Duration& warming, Warmth& warmth) {
    if (!has_source(interval)) {
        warming = {};
        return;
    }
    warmth.sourced += interval.length;
    note_limit(interval, warmth);
    if (battery.too_hot_to_charge(interval.battery)) {
        warmth.too_hot_to_charge += interval.length;
    } else if (!interval.takes_charge) {
        warmth.too_cold_to_charge += interval.length;
        warming += interval.length;
    } else if (warming > Duration{}) {
        warmth.to_warm = std::max(warmth.to_warm.value_or(warming), warming);
        warming = {};
    }
}

/// With a heater of that power.
struct Tried {
    bool charges, holds;
};

Tried with_heater(ScenarioInputs inputs, Power heater, SimulationOptions options) {
    set_heater(inputs, heater);
    const Scenario scenario = trip_scenario(inputs);
    return {!hardly_charged(warmth_of(scenario, inputs)), simulate(scenario, options).holds()};
}

}  // namespace

Warmth warmth_of(const Scenario& scenario, const ScenarioInputs& inputs) {
    Warmth warmth;
    Duration warming{};
    for (const Interval& interval : scenario.intervals) {
        warmth.battery = std::max(warmth.battery, interval.battery);
        warmth.coldest = std::min(warmth.coldest, interval.battery);
        if (interval.driving) {
            const Temperature there = inputs.charging.where.around(interval.air, true, {});
            warmth.at_charger = std::max(warmth.at_charger.value_or(there), there);
        }
        note_charging(interval, scenario.battery, warming, warmth);
    }
    return warmth;
}

bool hardly_charged(const Warmth& warmth) { return warmth.too_cold_to_charge > 0.5 * warmth.sourced; }

std::optional<FrostCure> frost_cure(const ScenarioInputs& inputs, const Warmth& warmth, SimulationOptions options,
                                    bool holds) {
    if (!inputs.battery.charge_above || !hardly_charged(warmth)) return {};
    options.points = false;
    FrostCure cure;
    for (const double power : heaters_W) {
        const Power heater = watts(power);
        if (inputs.heater && heater <= inputs.heater->power) continue;
        const Tried tried = with_heater(inputs, heater, options);
        if (tried.charges && !cure.heater) cure.heater = heater;
        if (tried.holds && tried.charges && !cure.holding) cure.holding = heater;
        if (cure.heater && (holds || cure.holding)) break;
    }
    ScenarioInputs warm = inputs;
    warm.battery_where = {*inputs.battery.charge_above + warm_place, nullptr};
    cure.holds_in_the_warmth = simulate(trip_scenario(warm), options).holds();
    return cure;
}

std::optional<WithoutSensor> without_sensor(const System& system, const ScenarioInputs& inputs, const Warmth& warmth,
                                            SimulationOptions options) {
    const bool goes_by_it = !system.relay || system.solar;
    if (inputs.battery.charge_above || !goes_by_it || system.charger.sensor_given) return {};
    if (warmth.sourced == Duration{} || warmth.coldest > sensor_matters_below) return {};
    options.points = false;
    ScenarioInputs bare = inputs;
    bare.charging.compensation = {};
    const TripResult trip = simulate(trip_scenario(bare), options);
    return WithoutSensor{trip.lowest, trip.holds()};
}

}  // namespace voltwright

#include "voltwright/planning/energy_plan.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/planning/cold.hpp"
#include "voltwright/planning/warm_starts.hpp"
#include "voltwright/simulation/build_scenario.hpp"
#include "voltwright/simulation/operating_point.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace voltwright {

namespace {

/// What driving gives, and how long it takes from a state of charge.
std::optional<DrivingWorth> worth_of_driving(const ScenarioInputs& inputs, const TripResult& trip, Ratio from,
                                             CutOffSetting cut_off) {
    if (!(trip.driven > Duration{})) return {};
    DrivingWorth worth{trip.kept_while_driving / (trip.driven / hours(1)), {}, from};
    worth.first_hour = worth.an_hour;
    const auto drive = one_drive_scenario(inputs, longest_drive);
    if (!drive) return worth;
    SimulationOptions options{
        .start_soc = 1.0 - drive->depth_limit, .cut_off = cut_off, .until = drive->intervals.front().from + hours(1)};
    worth.first_hour = simulate(*drive, options).kept_while_driving;
    options = {.stop_when_filled = true, .start_soc = from, .cut_off = cut_off};
    worth.filled = simulate(*drive, options).filled;
    return worth;
}

bool any_cut_off(const TripResult& trip) {
    return std::any_of(trip.served.begin(), trip.served.end(),
                       [](const ConsumerResult& consumer) { return consumer.cut_offs > 0; });
}

/// How long it lasts with each setting of the cut-off.
struct Lasts {
    Autonomy standard, high;
};

/// What is asked: how long a battery lasts that stands from a time on with that charge.
struct ParkedFrom {
    const ScenarioInputs& inputs;
    Duration clock;
    Ratio from;
};

/// The longer way is only gone where the battery is not through.
Autonomy lasts_with(const ParkedFrom& stand, Scenario& parked, ParkedDay on, CutOffSetting cut_off) {
    Autonomy found = autonomy(parked, stand.from, cut_off);
    if (found.ended_by != EndedBy::trip) return found;
    HouseBattery battery = std::move(parked.battery);
    parked = parked_scenario(stand.inputs, stand.clock, longest_autonomy_days, FedBy::house, on);
    parked.battery = std::move(battery);
    return autonomy(parked, stand.from, cut_off);
}

Lasts lasts_on(const ParkedFrom& stand, Scenario& parked, ParkedDay on) {
    const Autonomy high = lasts_with(stand, parked, on, CutOffSetting::high);
    // What no cut-off ended at its high setting goes as far at the standard one.
    if (high.ended_by != EndedBy::cut_off && high.cut_offs == 0) return {high, high};
    return {lasts_with(stand, parked, on, CutOffSetting::standard), high};
}

/// On the hottest day, as `parked` has it, or on the coldest: what is shorter.
Lasts lasts_from(const ParkedFrom& stand, Scenario& parked) {
    const Lasts hot = lasts_on(stand, parked, ParkedDay::hottest);
    if (!judges_the_coldest(stand.inputs)) return hot;
    Scenario cloud = parked_scenario(stand.inputs, stand.clock, usual_autonomy_days, FedBy::house, ParkedDay::coldest);
    const Lasts cold = lasts_on(stand, cloud, ParkedDay::coldest);
    // The shorter, and the frost of either: who runs it longer meets that.
    const auto shorter = [](const Autonomy& a, const Autonomy& b) {
        Autonomy one = b.lasts < a.lasts ? b : a;
        for (const auto& near : {a.near_freezing, b.near_freezing})
            if (near && (!one.near_freezing || near->margin() < one.near_freezing->margin())) one.near_freezing = near;
        return one;
    };
    if (cold.high.lasts < hot.high.lasts) parked = std::move(cloud);
    return {shorter(hot.standard, cold.standard), shorter(hot.high, cold.high)};
}

// ---- a worn battery -------------------------------------------------------------------------------------------------

const Ratio worn_capacity = in_practice(PracticeShare::worn_capacity);

HouseBattery worn_battery(const BatteryBank& bank, const HouseBattery& as_new, const Tables& tables) {
    HouseBattery worn = house_battery(*bank.chemistry, bank.capacity, bank.count, worn_capacity, bank.internal, tables);
    worn.charge_above = as_new.charge_above;
    worn.charge_below = as_new.charge_below;
    return worn;
}

/// From as much charge as `found`, on the same day. `parked` is that day's.
std::optional<WornBattery> worn_out(const System& system, const ParkedFrom& stand, Scenario& parked,
                                    const Autonomy& found, CutOffSetting cut_off, const Tables& tables) {
    if (system.house.health_given || found.ended_by == EndedBy::trip || !(found.lasts > Duration{})) return {};
    parked.battery = worn_battery(system.house, stand.inputs.battery, tables);
    return WornBattery{worn_capacity, autonomy(parked, stand.from, cut_off)};
}

/// Whether a trip that holds with a new battery fails with a worn one. Only asked where that is near.
bool worn_fails(const Scenario& trip, const EnergyPlan& energy, const HouseBattery& worn) {
    if (!energy.trip.holds()) return false;
    // What is taken comes out of less; a tenth more, for a smaller battery falls further and takes less charge.
    const Ratio lowest = 1.0 - (1.0 - energy.trip.lowest) / worn_capacity;
    if (lowest - 0.1 > energy.trip.deepest_allowed) return false;
    Scenario again = trip;
    again.battery = worn;
    return !simulate(again, {.cut_off = energy.guard}).holds();
}

/// What of a load counts against what a battery is made to give for long. Lead gives for a minute what cranks an engine: of
/// what runs for a short time the mean square counts. The electronics of lithium look at every second.
double counted_share(const Consumer& consumer, const System& system) {
    const LoadUnit* load = find_load(system, consumer.name);
    if (!load || !load->short_time || system.house.chemistry->group != "lead") return 1.0;
    return std::sqrt(double(load->short_time->on / load->short_time->cycle));
}

/// All that is on together, with every compressor running, from a flat battery.
Current most_drawn(const Scenario& scenario, const ScenarioInputs& inputs, const System& system) {
    // The battery's own heater comes last, and nothing is drawn for it through a cable or a switch.
    const std::size_t drawing = scenario.consumers.size() - (inputs.heater ? 1 : 0);
    Current most{};
    for (std::size_t interval = 0; interval < scenario.intervals.size(); ++interval) {
        const Ratio* needs = scenario.needs_of(interval);
        Current sum{};
        for (std::size_t i = 0; i < drawing; ++i)
            if (needs[i] > Ratio{} || scenario.consumers[i].not_counted)
                sum += drawn_by(scenario.consumers[i], end_of_rating) * counted_share(scenario.consumers[i], system);
        most = std::max(most, sum);
    }
    return most;
}

bool cut_off_known(const FridgeUnit& fridge) { return fridge.cut_out || fridge.cut_in; }

/// Of every fridge on the house battery.
bool cut_offs_known(const System& system) {
    return std::all_of(system.fridges.begin(), system.fridges.end(), [&](const FridgeUnit& fridge) {
        return cut_off_known(fridge) || source_of(system, fridge.name) == PlaceKind::starter_battery;
    });
}

Settings settings_of(const System& system, const Tables& tables) {
    const DcCharger& charger = system.charger;
    Settings settings{.guard = {},
                      .absorption = charger.absorption,
                      .float_ = charger.float_,
                      .compensated = charger.compensation.per_kelvin < VoltagePerKelvin{},
                      .lacks_sensor = charger.compensation.per_kelvin == VoltagePerKelvin{} &&
                                      compensation_of(*system.house.chemistry).per_kelvin < VoltagePerKelvin{},
                      .wake_wire = system.charged_by_driving && charger.wake == Wake::ignition,
                      .charger = system.has_charger(),
                      .relay = system.relay.has_value(),
                      .regulator = system.solar.has_value()};
    const FridgeGuardRow& for_starting = *find_fridge_guard(tables, "high");
    if (!cut_offs_known(system))
        settings.guard = Settings::GuardChoice{find_fridge_guard(tables, "standard")->cut_out, for_starting.cut_out};
    for (const FridgeUnit& fridge : system.fridges)
        if (!cut_off_known(fridge) && source_of(system, fridge.name) == PlaceKind::starter_battery)
            settings.starter_guards.push_back({fridge.name, {for_starting.cut_out, for_starting.cut_in}});
    return settings;
}

Current least_charger_of(const Scenario& scenario) {
    Current least = scenario.charger.output;
    for (const Interval& interval : scenario.intervals)
        if (interval.driving) least = std::min(least, interval.charger);
    return least;
}

/// The trip with the setting of the cut-off that is not known: the one that is worse to live with, and the other.
void simulate_trip(const Scenario& scenario, SimulationOptions options, EnergyPlan& energy) {
    options.cut_off = energy.guard = CutOffSetting::high;
    energy.trip = simulate(scenario, options);
    // A cut-off that never acts at its high setting does not at the standard one. One whose trip ends at the depth limit is
    // not saved by a setting.
    if (energy.guard_known || !any_cut_off(energy.trip) || energy.trip.below_limit) return;
    options.cut_off = CutOffSetting::standard;
    energy.other = simulate(scenario, options);
    if (!worse(*energy.other, energy.trip)) return;
    std::swap(*energy.other, energy.trip);
    energy.guard = CutOffSetting::standard;
}

/// Judges it on a run of dull days, the guard's setting chosen again for them: from here on these are the trip's.
void judge_on_dull_days(Scenario& scenario, ScenarioInputs& inputs, int count, SimulationOptions options,
                        EnergyPlan& energy) {
    const auto run = hardest_run(inputs, Clearness::usual, count, energy.trip);
    if (!run) return;
    energy.dull = DullDays{*run, first_dull_day(inputs, *run), std::move(energy.trip)};
    energy.other.reset();
    inputs = under_sky(std::move(inputs), {.dull = true}, *run);
    scenario = trip_scenario(inputs);
    energy.warmth = warmth_of(scenario, inputs);
    simulate_trip(scenario, options, energy);
}

/// The same trip in the clearest of the skies that were taken for it, or in the dullest: whether its verdict is the other one.
bool sky_decides(const ScenarioInputs& inputs, const EnergyPlan& energy) {
    const bool holds = energy.trip.holds();
    const Clearness other = holds ? Clearness::least : Clearness::most;
    ScenarioInputs there = under_sky(inputs, {.clearness = other});
    if (energy.dull) {
        // To hold, it has to hold on the run that is hardest there.
        const auto run = holds ? std::optional(energy.dull->run)
                               : hardest_run(inputs, other, energy.dull->run.count,
                                             simulate(trip_scenario(there), {.cut_off = CutOffSetting::high}));
        if (run) there = under_sky(std::move(there), {.clearness = other, .dull = true}, *run);
    }
    return simulate(trip_scenario(there), {.cut_off = energy.guard}).holds() != holds;
}

/// Empty where the profile says how clear the sky is, and without a panel.
std::optional<AssumedSky> assumed_sky(const System& system, const ScenarioInputs& inputs, const EnergyPlan& energy) {
    if (!inputs.panel || system.trip.clearness_given) return {};
    const DaySky& sky = inputs.usual_day().sky;
    return AssumedSky{sky.usual, sky.least, sky.most, sky_decides(inputs, energy), sky.source};
}

}  // namespace

bool EnergyPlan::holds_in_usual_sun() const {
    const auto stays = [](const Finding& one) {
        return one.stops() && one.code != FindingCode::depth_limit && one.code != FindingCode::cut_out &&
               one.code != FindingCode::without_power;
    };
    return in_usual_sun().holds() && std::none_of(findings.begin(), findings.end(), stays);
}

EnergyPlan plan_energy(const System& system, const std::vector<LaidRun>& runs, const Tables& tables, bool points) {
    ScenarioInputs inputs = scenario_inputs(system, runs, tables);
    Scenario trip = trip_scenario(inputs);
    EnergyPlan energy{};
    energy.guard_known = cut_offs_known(system);
    energy.charger = trip.charger;
    energy.idling = inputs.idling;
    energy.least_charger = least_charger_of(trip);
    energy.warmth = warmth_of(trip, inputs);
    energy.most_drawn = most_drawn(trip, inputs, system);
    energy.fridges = trip.fridges;
    energy.starter = starter_loads(system, inputs, tables);
    if (energy.starter)
        energy.fridges.insert(energy.fridges.end(), energy.starter->fridges.begin(), energy.starter->fridges.end());
    energy.battery = trip.battery;
    energy.first_day = trip.first_day;
    energy.best_sun = trip.best_sun;
    energy.depth_limit = trip.depth_limit;
    simulate_trip(trip, {.points = points}, energy);
    if (inputs.panel) judge_on_dull_days(trip, inputs, system.trip.dull_days, {.points = points}, energy);
    energy.assumed_sky = assumed_sky(system, inputs, energy);
    energy.frost = frost_cure(inputs, energy.warmth, {.cut_off = energy.guard}, energy.trip.holds());
    energy.without_sensor = without_sensor(system, inputs, energy.warmth, {.cut_off = energy.guard});
    energy.untimed = untimed_loads(system, inputs, {.cut_off = energy.guard}, energy.trip.holds());
    energy.cool_first = fridges_to_cool_first(inputs, trip, {.cut_off = energy.guard}, energy.trip);

    energy.night_from = evening_of(inputs);
    energy.night_to = energy.night_from + night_length(inputs);
    Scenario parked = parked_scenario(inputs, energy.night_from, usual_autonomy_days);
    energy.a_night = simulate(parked, {.start_soc = Ratio{1.0}, .until = energy.night_to}).ledger.used;
    const ParkedFrom stand{inputs, energy.night_from, Ratio{1.0}};
    const Lasts lasts = lasts_from(stand, parked);
    energy.autonomy = lasts.high;
    energy.worn = worn_out(system, stand, parked, lasts.high, CutOffSetting::high, tables);
    if (energy.worn) energy.worn->fails_trip = worn_fails(trip, energy, parked.battery);
    if (!energy.guard_known && lasts.standard.lasts != lasts.high.lasts) energy.other_autonomy = lasts.standard;
    if (system.charged_by_driving)
        energy.driving = worth_of_driving(inputs, energy.in_usual_sun(), 1.0 - trip.depth_limit, energy.guard);
    energy.settings = settings_of(system, tables);
    return energy;
}

std::optional<AutonomyAnswer> answer_autonomy(const System& system, const std::vector<LaidRun>& runs,
                                              const AutonomyQuestion& question, const Tables& tables) {
    Ratio from = question.from.value_or(Ratio{1.0});
    if (question.rested) {
        const auto soc = soc_at_rest(tables, system.house.chemistry->chemistry, *question.rested);
        if (!soc) return {};
        from = *soc;
    }
    const ScenarioInputs inputs = scenario_inputs(system, runs, tables);
    const ParkedFrom stand{inputs, question.at.value_or(evening_of(inputs)), from};
    Scenario parked = parked_scenario(inputs, stand.clock, usual_autonomy_days);
    const Lasts lasts = lasts_from(stand, parked);
    AutonomyAnswer answer{lasts.standard, {}, {}, {}, inputs.depth_limit};
    if (!cut_offs_known(system) && lasts.high.lasts != lasts.standard.lasts) answer.high = lasts.high;
    const bool high_ends_it = answer.high && answer.high->lasts < answer.standard.lasts;
    answer.worn = worn_out(system, stand, parked, high_ends_it ? lasts.high : lasts.standard,
                           high_ends_it ? CutOffSetting::high : CutOffSetting::standard, tables);
    if (system.charged_by_driving)
        answer.driving =
            worth_of_driving(inputs, simulate(trip_scenario(inputs)), answer.standard.end, CutOffSetting::standard);
    answer.untimed = untimed_loads(system, inputs, {}, false);
    return answer;
}

}  // namespace voltwright

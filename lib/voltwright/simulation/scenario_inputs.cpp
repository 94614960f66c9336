#include "voltwright/simulation/scenario_inputs.hpp"

#include "voltwright/circuit/converter.hpp"
#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/energy/sky.hpp"
#include "voltwright/energy/weather.hpp"
#include "voltwright/profile/words.hpp"
#include "voltwright/simulation/relay_link.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>
#include <chrono>
#include <stdexcept>
#include <string_view>

namespace voltwright {

Temperature Placement::around(Temperature air, bool driving, const SunShares& sun) const {
    return fixed ? *fixed : around_at(*place, air, driving, place->closed ? sun.closed : sun.open);
}

bool ScenarioInputs::any_fed_by(FedBy which) const {
    return std::any_of(consumers.begin(), consumers.end(),
                       [which](const ScheduledConsumer& one) { return one.fed_by == which; });
}

namespace {

// ---- the runs between a source and a place --------------------------------------------------------------------------

/// The run that ends at a place; nullptr when none leads there. Throws when one does and was not laid.
const LaidRun* laid_to(const System& system, const std::vector<LaidRun>& runs, std::string_view place) {
    const auto of_the_sun = [](const LaidRun& run) {
        return run.from.kind == PlaceKind::regulator && run.to.kind == PlaceKind::house_battery;
    };
    for (const LaidRun& run : runs)
        if (run.to.name == place && !of_the_sun(run)) return &run;
    if (std::any_of(system.runs.begin(), system.runs.end(),
                    [place](const SystemRun& run) { return run.to.name == place && run.role != RunRole::solar; }))
        throw std::invalid_argument("the run to " + std::string(place) + " is not among those laid");
    return nullptr;
}

bool is_laid(const SystemRun& run, const std::vector<LaidRun>& runs) {
    return std::any_of(runs.begin(), runs.end(),
                       [&](const LaidRun& one) { return one.from == run.from && one.to == run.to; });
}

struct SourcePath {
    std::optional<PlaceKind> source;  ///< empty when no run leads there
    Resistance loop{};
    bool brings = true;

    /// The battery that feeds it: the house battery where no run leads there; empty when something else does.
    [[nodiscard]] std::optional<FedBy> fed_by() const {
        if (source == PlaceKind::charger) return {};
        return source == PlaceKind::starter_battery ? FedBy::starter : FedBy::house;
    }
};

SourcePath path_to(const System& system, const std::vector<LaidRun>& runs, std::string_view place) {
    SourcePath path;
    for (const LaidRun* run = laid_to(system, runs, place); run; run = laid_to(system, runs, run->from.name)) {
        path.loop += run->loop;
        path.brings = path.brings && run->brings;
        path.source = run->from.kind;
        if (is_source(run->from)) break;
    }
    return path;
}

// ---- weather and days -----------------------------------------------------------------------------------------------

Placement placement(const Somewhere& where, const Tables& tables) {
    if (const auto* own = std::get_if<Spread<Temperature>>(&where)) return {own->value, nullptr};
    return {{}, find_surroundings(tables, std::get<std::string>(where))};
}

int day_of_year(CalendarDate date) {
    using namespace std::chrono;
    const year_month_day then{year{date.year}, month{static_cast<unsigned>(date.month)},
                              day{static_cast<unsigned>(date.day)}};
    return static_cast<int>((sys_days{then} - sys_days{then.year() / January / 1}).count()) + 1;
}

/// Of a year that is no leap year.
int month_of(int day_of_year) {
    using namespace std::chrono;
    return static_cast<int>(
        static_cast<unsigned>(year_month_day{sys_days{year{2001} / January / 1} + days{day_of_year - 1}}.month()));
}

std::optional<Site> site_of(const TripPlan& trip) {
    if (!trip.latitude || !trip.start) return {};
    return Site{*trip.latitude, day_of_year(*trip.start)};
}

/// As the profile gives it, or the usual one of the month.
DaySky day_sky(const TripPlan& trip, const std::optional<Site>& site, int day, const Tables& tables) {
    if (trip.clearness_given || !site) {
        const Ratio given = trip.clearness.value_or(Ratio{1.0});
        return {given, given, given, false};
    }
    const ClearnessIndexRow& row = *find_clearness_index(tables, site->latitude, month_of(site->day_of_year(day)));
    return {of_clear_sky(row.usual), of_clear_sky(row.least), of_clear_sky(row.most), false, row.source};
}

Ratio clearness_under(const DaySky& day, Sky sky, const Tables& tables) {
    const Ratio here = sky.clearness == Clearness::least  ? day.least
                       : sky.clearness == Clearness::most ? day.most
                                                          : day.usual;
    return sky.dull && !day.told ? of_clear_sky(dull_day(clearness_index_of(here), tables).dull) : here;
}

/// Of day 0, which is as usual, to the day after the last.
std::vector<DayConditions> day_conditions(const TripPlan& trip, const std::optional<Site>& site, const Tables& tables) {
    std::vector<DayConditions> all;
    for (int day = 0; day <= trip.days + 1; ++day) {
        DayConditions found{trip.low, trip.high, {}, trip.drives, day_sky(trip, site, day, tables)};
        for (const SpecialDay& other : trip.special) {
            if (std::find(other.days.begin(), other.days.end(), day) == other.days.end()) continue;
            found.low = other.low.value_or(found.low);
            found.high = other.high.value_or(found.high);
            if (other.clearness) found.sky = {*other.clearness, *other.clearness, *other.clearness, true};
            if (other.drives) found.drives = *other.drives;
        }
        found.clearness = found.sky.usual;
        if (found.sky.told) found.clearness_of = ClearnessOf::one_day;
        all.push_back(std::move(found));
    }
    return all;
}

/// The share of the panel's power that its cables bring to the battery in full sun; nothing through one that brings none.
/// Less sun loses less: its current is smaller.
///
///     (1 − I_p·R_p/V_p)·V/(V + I·R)
///
/// I_p, V_p, R_p   the panels' current and voltage, and the cables to the regulator     I, V, R   the same to the battery
///
/// Source: Ohm's law.
Ratio brought_by_cables(const System& system, const std::vector<LaidRun>& runs) {
    const SolarPanel& solar = *system.solar;
    const Voltage absorption = system.charger.absorption;
    Ratio share = 1.0;
    const SourcePath panel = path_to(system, runs, the(PlaceKind::regulator).name);
    if (!panel.brings) return 0.0;
    share -= solar.most_power_current() * panel.loop / solar.string_voltage();
    for (const LaidRun& run : runs) {
        if (run.from.kind != PlaceKind::regulator || run.to.kind != PlaceKind::house_battery) continue;
        if (!run.brings) return 0.0;
        share *= absorption / (absorption + full_sun_current(solar, absorption) * run.loop);
    }
    return std::max<Ratio>(share, 0.0);
}

Panel panel_of(const System& system, const std::vector<LaidRun>& runs, const Tables& tables) {
    const SolarPanel& solar = *system.solar;
    Panel panel = panel_from(solar.panel, solar.tilt, solar.azimuth, solar.shade, tables.panels.front(),
                             *find_regulator(tables, show(solar.regulator)), brought_by_cables(system, runs));
    // The table's share is that of a panel for 12 V: of more volts a regulator that only switches leaves more unused.
    const PanelPlateRow& plate = tables.panel_plates.front();
    if (panel.at_battery_voltage)
        *panel.at_battery_voltage *= std::min<Ratio>(plate.power / plate.most_power / solar.string_voltage(), 1.0);
    // A battery that takes all has less than its absorption voltage.
    if (solar.output_given) panel.most = solar.output * nominal_voltage;
    return panel;
}

// ---- the charger ----------------------------------------------------------------------------------------------------

ChargerPoint charger_point(const DcCharger& charger, Voltage running, const SourcePath& feed,
                           const std::optional<Current>& spare) {
    ChargerPoint point{.efficiency = charger.efficiency,
                       .absorption = charger.absorption,
                       .source = running,
                       .unloaded = running,
                       .loaded = Voltage{},
                       .input = Current{},
                       .input_on = charger.input_on,
                       .input_off = charger.input_off,
                       .output = Current{}};
    const ConverterPower power = converter_power(charger.output, charger.absorption, charger.efficiency);
    auto input = feed.brings ? converter_input(running, feed.loop, power.power, charger.input_limit) : std::nullopt;
    if (input) point.asks = input->current;
    if (input && spare && input->current > *spare) input = converter_input(running, feed.loop, power.power, *spare);
    if (!input) return point;
    point.loaded = input->voltage;
    point.input = input->current;
    if (!point.starts() || point.cycles()) return point;
    point.output = input->limited ? std::min<Current>(charger.output, charger.efficiency * input->voltage *
                                                                          input->current / charger.absorption)
                                  : charger.output;
    return point;
}

/// A relay's: at its terminals stands what its feed leaves of the alternator's volts.
ChargerPoint relay_point(const System& system, Voltage running, const SourcePath& feed, Resistance output,
                         const Tables& tables) {
    const bool sensed = system.charger.wake == Wake::voltage;
    ChargerPoint point{.efficiency = 1.0,
                       .absorption = running,
                       .source = running,
                       .unloaded = running,
                       .loaded = running,
                       .input = Current{},
                       .input_on = sensed ? system.relay->closes_at : Voltage{},
                       .input_off = sensed ? system.relay->opens_at : Voltage{},
                       .output = Current{}};
    const Resistance loop = feed.loop + output;
    LinkEnds ends = link_ends(system, tables);
    ends.source = running;
    point.link = link_flow(ends, {loop, loop}).usual;
    point.input = point.link->current;
    point.loaded = point.link->source - feed.loop * point.input;
    if (point.starts() && !point.cycles()) point.output = point.input;
    return point;
}

/// What a closed relay holds the house battery to.
std::optional<RelayCharging> relay_charging(const ChargerPoint& point, const StarterBattery& starter, Resistance loop) {
    if (!point.link || !(point.output > Current{})) return {};
    // Without a limit more than ever flows: the alternator's volts are what it is held to.
    return RelayCharging{starter.running, starter.spare_current.value_or((starter.running - end_of_rating) / loop)};
}

Charging charging_of(const DcCharger& charger, const Tables& tables) {
    return {.absorption = charger.absorption,
            .float_ = charger.float_,
            .compensation = charger.compensation,
            .full_output_to = charger.full_output_to,
            .derate = charger.derate,
            .off_above = charger.off_above,
            .where = placement(charger.where, tables)};
}

// ---- the consumers --------------------------------------------------------------------------------------------------

bool cut_off_known(const FridgeUnit& fridge) { return fridge.cut_out || fridge.cut_in; }

LowVoltageCutOff cut_off_of(const FridgeUnit& fridge, std::string_view setting, const Tables& tables) {
    const FridgeGuardRow& usual = *find_fridge_guard(tables, setting);
    if (!cut_off_known(fridge)) return {usual.cut_out, usual.cut_in};
    const Voltage gap = usual.cut_in - usual.cut_out;
    const Voltage out = fridge.cut_out ? *fridge.cut_out : *fridge.cut_in - gap;
    return {out, fridge.cut_in.value_or(out + gap)};
}

HeldInside held_at(Temperature inside, const std::optional<Temperature>& freezer, Ratio share) {
    return freezer ? two_zones(inside, *freezer, share) : HeldInside(inside);
}

Fridge fridge_model(const FridgeUnit& fridge, const FridgeRow& row) {
    std::vector<RatedPoint> points;
    for (const RatedUse& rated : fridge.rated) {
        const auto* counted = std::get_if<Charge>(&rated.a_day);
        points.push_back(
            {rated.around, held_at(rated.inside, rated.freezer, fridge.freezer_share),
             counted ? mean_power(*counted, fridge.counted_at) : mean_power(std::get<Energy>(rated.a_day))});
    }
    if (points.empty()) return fridge_by_volume(fridge.litres.value_or(row.volume), row);
    if (points.size() == 1) return fit_fridge(points.front(), row.fixed_share, row);
    std::sort(points.begin(), points.end(),
              [](const RatedPoint& a, const RatedPoint& b) { return a.around < b.around; });
    return fit_fridge(points.front(), points.back(), row);
}

/// Where nobody measured it, nobody opened it meanwhile: the usual number counts.
std::optional<int> openings_of(const FridgeUnit& fridge, const FridgeRow& row) {
    return fridge.opened || !fridge.rated.empty() ? fridge.opened
                                                  : std::optional(static_cast<int>(in_ratio(row.lid_openings)));
}

ScheduledConsumer fridge_consumer(const FridgeUnit& fridge, const SourcePath& path, FedBy fed_by,
                                  const Tables& tables) {
    // The high setting is made for a battery that has to start the engine.
    const std::string_view standard = fed_by == FedBy::starter ? "high" : "standard";
    const FridgeRow& row = tables.fridges.front();
    return {.consumer = {.name = fridge.name,
                         .draw = fridge.draw,
                         .path = path.loop,
                         .essential = fridge.essential,
                         .fridge = true,
                         .cut_offs = {{cut_off_of(fridge, standard, tables), cut_off_of(fridge, "high", tables)}}},
            .fed_by = fed_by,
            .fridge = FridgePlan{.model = fridge_model(fridge, row),
                                 .draw = fridge.draw,
                                 .inside = fridge.inside,
                                 .held = held_at(fridge.inside, fridge.freezer, fridge.freezer_share),
                                 .where = placement(fridge.where, tables),
                                 .counted_at = fridge.counted_at,
                                 .volume = fridge.litres.value_or(row.volume),
                                 .opened = openings_of(fridge, row),
                                 .restocks = fridge.restock}};
}

std::optional<LowVoltageCutOff> cut_off_of(const LoadUnit& load, bool brings) {
    if (load.cut_out) return LowVoltageCutOff{*load.cut_out, load.cut_in};
    // What cannot be brought is not had: it is off.
    if (!brings) return LowVoltageCutOff{end_of_rating, {}};
    return {};
}

ScheduledConsumer load_consumer(const LoadUnit& load, const SourcePath& path, FedBy fed_by,
                                const std::optional<Inverter>& inverter) {
    const auto cut_off = cut_off_of(load, path.brings);
    // What the starter battery bears without an hour given is counted in full: an engine that does not start strands one.
    const bool counts = load.when_given || load.essential || fed_by == FedBy::starter;
    return {.consumer = {.name = load.name,
                         .draw = load.through_inverter ? std::get<Power>(load.draw) / inverter->efficiency : load.draw,
                         .path = path.loop,
                         .essential = load.essential,
                         .cut_offs = {{cut_off, cut_off}},
                         .not_counted = !counts},
            .fed_by = fed_by,
            .hours = load.hours,
            .duty = counts ? load.duty : Ratio{}};
}

std::vector<ScheduledConsumer> scheduled_consumers(const System& system, const std::vector<LaidRun>& runs,
                                                   const Tables& tables) {
    std::vector<ScheduledConsumer> all;
    for (const FridgeUnit& fridge : system.fridges) {
        const SourcePath path = path_to(system, runs, fridge.name);
        if (const auto fed_by = path.fed_by()) all.push_back(fridge_consumer(fridge, path, *fed_by, tables));
    }
    const std::string inverter = the(PlaceKind::inverter).name;
    std::vector<ClockWindow> inverter_hours;  // of all that hangs on it
    bool inverter_used = false;
    for (const LoadUnit& load : system.loads) {
        const SourcePath path = path_to(system, runs, load.through_inverter ? inverter : load.name);
        const auto fed_by = path.fed_by();
        if (!fed_by) continue;
        all.push_back(load_consumer(load, path, *fed_by, system.inverter));
        if (!load.through_inverter || all.back().consumer.not_counted) continue;
        inverter_used = true;
        inverter_hours.insert(inverter_hours.end(), load.hours.begin(), load.hours.end());
    }
    if (inverter_used && system.inverter->standby) {
        const SourcePath path = path_to(system, runs, inverter);
        all.push_back({.consumer = {.name = "inverter standby", .draw = *system.inverter->standby, .path = path.loop},
                       .fed_by = *path.fed_by(),
                       .hours = inverter_hours});
    }
    return all;
}

}  // namespace

ScenarioInputs scenario_inputs(const System& system, const std::vector<LaidRun>& runs, const Tables& tables) {
    for (const SystemRun& run : system.runs)
        if (!is_laid(run, runs)) throw std::invalid_argument("no cable is laid to " + run.to.name);
    const BatteryBank& battery = system.house;
    const SourcePath feed = path_to(system, runs, system.relay ? "relay" : the(PlaceKind::charger).name);
    const Resistance output = path_to(system, runs, the(PlaceKind::house_battery).name).loop;
    const auto point_at = [&](Voltage running) {
        return system.relay ? relay_point(system, running, feed, output, tables)
                            : charger_point(system.charger, running, feed, system.starter.spare_current);
    };
    ScenarioInputs inputs{.battery = house_battery(*battery.chemistry, battery.capacity, battery.count, battery.health,
                                                   battery.internal, tables),
                          .battery_where = placement(battery.where, tables),
                          .battery_time_constant = find_lag(tables, "battery")->time_constant,
                          .vehicle_time_constant = find_lag(tables, "closed vehicle")->time_constant,
                          .printed_capacity = battery.capacity * static_cast<double>(battery.count),
                          .depth_limit = battery.depth_limit,
                          .start_soc = battery.start_soc,
                          .charger = point_at(system.starter.running),
                          .idling = point_at(std::min(system.starter.running, in_practice(PracticeVoltage::hot_idle))),
                          .charging = charging_of(system.charger, tables),
                          .output_path = system.relay ? feed.loop + output : output,
                          .consumers = scheduled_consumers(system, runs, tables),
                          .site = site_of(system.trip),
                          .panel = {},
                          .conditions = {},
                          .chemistry = battery.chemistry,
                          .tables = &tables};
    inputs.battery.charge_above = battery.charge_above;
    inputs.battery.charge_below = battery.charge_below;
    if (system.relay) inputs.relay = relay_charging(inputs.charger, system.starter, inputs.output_path);
    if (system.solar && inputs.site) inputs.panel = panel_of(system, runs, tables);
    inputs.conditions = day_conditions(system.trip, inputs.site, tables);
    if (battery.heater) set_heater(inputs, *battery.heater);
    return inputs;
}

void set_heater(ScenarioInputs& inputs, Power power) {
    const auto row =
        std::find_if(inputs.tables->battery_heaters.begin(), inputs.tables->battery_heaters.end(),
                     [&](const BatteryHeaterRow& each) { return each.chemistry == inputs.chemistry->chemistry; });
    if (row == inputs.tables->battery_heaters.end()) return;
    inputs.heater = battery_heater(*row, power, inputs.printed_capacity, inputs.battery_time_constant);
    std::erase_if(inputs.consumers, [](const ScheduledConsumer& one) { return one.warms_battery; });
    inputs.consumers.push_back({.consumer = {.name = std::string(battery_heater_name), .draw = power, .path = {}},
                                .fed_by = FedBy::house,
                                .warms_battery = true});
}

ScenarioInputs under_sky(ScenarioInputs inputs, Sky sky, std::optional<DayRun> days) {
    for (std::size_t number = 0; number < inputs.conditions.size(); ++number) {
        if (days && !days->holds(static_cast<int>(number))) continue;
        DayConditions& day = inputs.conditions[number];
        day.clearness = clearness_under(day.sky, sky, *inputs.tables);
        day.clearness_of = sky.dull || day.sky.told ? ClearnessOf::one_day : ClearnessOf::mean_day;
    }
    return inputs;
}

Duration evening_of(const ScenarioInputs& inputs) {
    Duration latest{};
    for (const ClockWindow& drive : inputs.usual_day().drives) latest = std::max(latest, minutes(drive.to.minutes));
    return latest > Duration{} ? latest : hours(18);
}

Duration night_length(const ScenarioInputs& inputs) {
    const std::vector<ClockWindow>& drives = inputs.usual_day().drives;
    if (drives.empty()) return hours(24);
    Duration first = hours(24);
    for (const ClockWindow& drive : drives) first = std::min(first, minutes(drive.from.minutes));
    return hours(24) - evening_of(inputs) + first;
}

}  // namespace voltwright

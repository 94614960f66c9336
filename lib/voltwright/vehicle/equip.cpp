#include "voltwright/vehicle/equip.hpp"

#include "voltwright/profile/words.hpp"
#include "voltwright/units/clock.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <type_traits>
#include <utility>

namespace voltwright {

namespace {

template <class T>
std::optional<T> if_given(const Given<Spread<T>>& amount) {
    return amount ? std::optional<T>(amount->value) : std::nullopt;
}

std::optional<ShortCurrent> inrush_of(const Given<InrushKeys>& keys) {
    if (!keys) return {};
    return ShortCurrent{keys->current->value, keys->time->value};
}

/// From what is known best: as measured, by the cold-cranking current, or a range over the usual ones.
InternalResistance starter_resistance(const StarterKeys& given, const CrankingRow& test) {
    if (const auto& own = given.internal_resistance) return known_resistance(own->value, own->half_width);
    if (given.cold_cranking) return internal_resistance(test, given.cold_cranking->value);
    return usual_starter_resistance(test);
}

InternalResistance house_resistance(const BatteryKeys& given, const BatteryKeys& keys, const ChemistryRow& chemistry) {
    const int count = *keys.count;
    if (!given.internal_resistance) return internal_resistance(chemistry, keys.capacity->value, count);
    const Spread<Resistance>& one = *given.internal_resistance;
    return known_resistance(one.value / static_cast<double>(count), one.half_width / static_cast<double>(count));
}

StarterBattery starter_of(const StarterKeys& given, const StarterKeys& keys, const Tables& tables) {
    return {.internal = starter_resistance(given, tables.cranking.front()),
            .alternator = *keys.alternator,
            .running = keys.running->value,
            .lowest_running = keys.lowest_running->value,
            .capacity = if_given(keys.capacity),
            .spare_current = if_given(keys.spare_current),
            .stud = keys.stud,
            .where = *keys.where};
}

BatteryBank house_of(const BatteryKeys& given, const BatteryKeys& keys, const ChemistryRow& chemistry) {
    return {.internal = house_resistance(given, keys, chemistry),
            .chemistry = &chemistry,
            .capacity = keys.capacity->value,
            .count = *keys.count,
            .depth_limit = keys.depth_limit->value,
            .charge_limit = keys.charge_limit->value,
            .discharge_limit = keys.discharge_limit->value,
            .start_soc = keys.start_soc->value,
            .health = keys.health->value,
            .health_given = given.health.has_value(),
            .charge_above = if_given(keys.charge_above),
            .charge_below = if_given(keys.charge_below),
            .heater = if_given(keys.heater),
            .stud = keys.stud,
            .where = *keys.where};
}

std::optional<RelayCoupling> relay_of(const ChargerKeys& given, const ChargerKeys& keys) {
    if (keys.kind != Coupling::relay) return {};
    return RelayCoupling{.closes_at = keys.closes_at->value,
                         .opens_at = keys.opens_at->value,
                         .voltages_given = given.closes_at || given.opens_at,
                         .rating = if_given(keys.rating)};
}

DcCharger charger_of(const ChargerKeys& given, const ChargerKeys& keys, const ChemistryRow& chemistry) {
    return {.output = keys.output ? keys.output->value : Current{},
            .efficiency = keys.efficiency->value,
            .input_on = keys.input_on->value,
            .input_off = keys.input_off->value,
            .wake = *keys.wake,
            .input_limit = if_given(keys.input_limit),
            .absorption = keys.absorption->value,
            .float_ = keys.float_->value,
            .compensation = *keys.temperature_sensor ? compensation_of(chemistry) : Compensation{},
            .sensor_given = given.temperature_sensor.has_value(),
            .full_output_to = keys.full_output_to->value,
            .derate = keys.derate->value / kelvins(1),
            .off_above = keys.off_above->value,
            .fuse_max = if_given(keys.fuse_max),
            .terminal = keys.terminal,
            .stud = keys.stud,
            .where = *keys.where};
}

SolarPanel solar_of(const SolarKeys& given, const SolarKeys& keys, const Tables& tables) {
    return {.panel = keys.panel->value,
            .tilt = keys.tilt->value,
            .azimuth = keys.azimuth->value,
            .regulator = *keys.regulator,
            .shade = keys.shade->value,
            .series = *keys.series,
            .parallel = *keys.parallel,
            .short_circuit = keys.short_circuit->value,
            .most_power_voltage = keys.most_power_voltage->value,
            .open_circuit = keys.open_circuit->value,
            .plate_given = given.short_circuit.has_value(),
            .output = keys.output->value,
            .output_given = given.output.has_value(),
            .efficiency = find_regulator(tables, show(*keys.regulator))->efficiency,
            .fuse_max = if_given(keys.fuse_max),
            .terminal = keys.terminal,
            .where = *keys.where};
}

Inverter inverter_of(const InverterKeys& keys) {
    return {.output = keys.output->value, .efficiency = keys.efficiency->value, .standby = if_given(keys.standby)};
}

std::optional<ShortTime> short_time_of(const LoadKeys& keys) {
    if (!keys.runs || !keys.every) return {};
    return ShortTime{keys.runs->value, keys.every->value};
}

LoadUnit load_unit_of(const LoadKeys& keys) {
    LoadUnit load{.name = *keys.name,
                  .draw = Power{},
                  .hours = keys.hours.value_or(std::vector{ClockWindow{ClockTime{0}, ClockTime{minutes_in_a_day}}}),
                  .duty = if_given(keys.duty).value_or(1.0),
                  .when_given = keys.hours || keys.duty || keys.runs,
                  .short_time = short_time_of(keys),
                  .essential = *keys.essential,
                  .through_inverter = keys.through.has_value(),
                  .cut_out = if_given(keys.cut_out),
                  .cut_in = if_given(keys.cut_in),
                  .inrush = inrush_of(keys.inrush),
                  .where = *keys.where};
    std::visit([&](const auto& draw) { load.draw = draw.value; }, *keys.draw);
    if (load.short_time) load.duty = load.short_time->on / load.short_time->cycle;
    return load;
}

FridgeUnit fridge_of(const FridgeKeys& keys) {
    FridgeUnit fridge{.name = *keys.name,
                      .draw = keys.draw->value,
                      .rated = {},
                      .counted_at = keys.counted_at->value,
                      .litres = if_given(keys.litres),
                      .inside = keys.inside->value,
                      .freezer = if_given(keys.freezer),
                      .freezer_share = keys.freezer_share->value,
                      .opened = keys.opened,
                      .essential = *keys.essential,
                      .cut_out = if_given(keys.cut_out),
                      .cut_in = if_given(keys.cut_in),
                      .fuse_max = keys.fuse_max->value,
                      .inrush = inrush_of(keys.inrush),
                      .where = *keys.where,
                      .restock = {}};
    for (const RatedKeys& rated : keys.rated.value_or(std::vector<RatedKeys>{})) {
        RatedUse use{.around = rated.around->value,
                     .inside = rated.inside->value,
                     .freezer = if_given(rated.freezer),
                     .a_day = Charge{}};
        std::visit([&](const auto& a_day) { use.a_day = a_day.value; }, *rated.a_day);
        fridge.rated.push_back(use);
    }
    for (const RestockKeys& warm : keys.restock.value_or(std::vector<RestockKeys>{}))
        fridge.restock.push_back(
            {.days = warm.on->days, .at = *warm.at, .mass = warm.mass->value, .from = warm.from->value});
    return fridge;
}

TripPlan trip_of(const Profile& given, const Profile& complete) {
    const TripKeys& keys = complete.trip;
    TripPlan trip{.days = *keys.days,
                  .low = keys.low->value,
                  .high = keys.high->value,
                  .drives = keys.drives.value_or(std::vector<ClockWindow>{}),
                  .start = keys.start,
                  .latitude = if_given(keys.latitude),
                  .clearness = if_given(keys.clearness),
                  .clearness_given = given.trip.clearness.has_value(),
                  .dull_days = keys.dull_days.value_or(0),
                  .special = {}};
    for (const DayKeys& day : complete.days)
        trip.special.push_back({.days = day.on->days,
                                .drives = day.drives,
                                .low = if_given(day.low),
                                .high = if_given(day.high),
                                .clearness = if_given(day.clearness)});
    return trip;
}

NotedReading reading_of(const ReadingKeys& keys) {
    return {.across = keys.across,
            .through = keys.through,
            .with = keys.with.value_or(std::vector<std::string>{}),
            .engine = keys.engine.value_or(Engine::off),
            .charger_off = keys.charger == ChargerSwitch::off,
            .voltage = keys.voltage,
            .current = keys.current};
}

template <class Keys, class Of>
auto all_of(const std::vector<Keys>& keys, Of of) {
    std::vector<std::invoke_result_t<Of, const Keys&>> all;
    all.reserve(keys.size());
    for (const Keys& one : keys) all.push_back(of(one));
    return all;
}

}  // namespace

Equipment equipment_of(const Profile& given, const Profile& complete, const Tables& tables) {
    const ChemistryRow& chemistry = *find_chemistry(tables, show(*complete.battery.chemistry));
    return {.starter = starter_of(given.starter, complete.starter, tables),
            .house = house_of(given.battery, complete.battery, chemistry),
            .charger = charger_of(given.charger, complete.charger, chemistry),
            .relay = relay_of(given.charger, complete.charger),
            .charged_by_driving = complete.charger.kind != Coupling::none,
            .no_charger_told = given.charger.kind == Coupling::none,
            .solar = complete.solar ? std::optional(solar_of(*given.solar, *complete.solar, tables)) : std::nullopt,
            .inverter = complete.inverter ? std::optional(inverter_of(*complete.inverter)) : std::nullopt,
            .loads = all_of(complete.loads, load_unit_of),
            .fridges = all_of(complete.fridges, fridge_of),
            .trip = trip_of(given, complete),
            .meter = {*complete.meter.voltage, *complete.meter.millivolts, *complete.meter.current},
            .readings = all_of(complete.readings, reading_of)};
}

}  // namespace voltwright

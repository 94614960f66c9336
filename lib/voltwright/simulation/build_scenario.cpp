#include "voltwright/simulation/build_scenario.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/energy/weather.hpp"
#include "voltwright/units/clock.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace voltwright {

namespace {

// ---- a scenario in the making ---------------------------------------------------------------------------------------

/// What surrounds a fridge, and how long it runs for that, over the intervals so far.
struct FridgeRange {
    Temperature coolest, hottest;
    Ratio least_duty, greatest_duty;
};

/// Of one fridge, over the intervals so far.
struct FridgeTally {
    std::optional<FridgeRange> range;  ///< empty before the first interval
    Duration overwhelmed{};
    Energy owed{}, most_owed{};  ///< of what comes in through walls and lid
    Charge today{}, a_day_cool{}, a_day_hot{};
    std::optional<Restocking> most_put_in;
    Energy put_in{};      ///< with warm things, to be taken out from this part of the day on
    Energy all_put_in{};  ///< over all intervals
    bool starts_cold = true;
    Ratio need{};  ///< share that it has to run of the part of the day that is being added
};

/// A consumer of the scenario, with its plan and what was counted of it.
struct Counted {
    const ScheduledConsumer* planned;
    FridgeTally fridge = {};
};

struct Draft {
    const ScenarioInputs& inputs;
    bool restocking;  ///< warm things are put into the fridges
    Scenario scenario = {};
    std::vector<Counted> counted = {};                    ///< one for each of the scenario's consumers
    Ratio soaked = {};                                    ///< sun's share in a closed vehicle, by then
    std::vector<Duration> switching = {};                 ///< times of a day at which loads go on or off, rising
    std::optional<Temperature> battery = {};              ///< at the end of the last interval
    std::optional<Temperature> whole_capacity_from = {};  ///< the coolest at which nothing was found to be lost
};

/// A day, and the part of it that the scenario passes through.
struct DayPart {
    int number;  ///< from 1
    const DayConditions &yesterday, &today, &tomorrow;
    Duration from, to;   ///< by the clock
    bool parked;         ///< neither engine nor sun on a panel
    bool cloud = false;  ///< nor sun that heats
};

/// What is outside in a part of a day: between two full hours, and between what the sun, a drive or warm food bring. That a
/// load goes on or off there splits the interval, and changes nothing of this: the answer does not hang on the loads' clock.
struct Outside {
    Interval interval;
    Duration begin, end;  ///< by the clock
    SunShares sun;        ///< what heats
    Ratio heater{};       ///< share of the time that the battery's own heater runs
};

Duration clock(ClockTime time) { return minutes(time.minutes); }

void add_times(const std::vector<ClockWindow>& windows, std::vector<Duration>& times) {
    for (const ClockWindow& window : windows) {
        times.push_back(clock(window.from));
        times.push_back(clock(window.to));
    }
}

std::vector<Duration> switching_times(const std::vector<Counted>& counted) {
    std::vector<Duration> times;
    for (const Counted& one : counted) add_times(one.planned->hours, times);
    std::sort(times.begin(), times.end());
    times.erase(std::unique(times.begin(), times.end()), times.end());
    return times;
}

Draft draft_of(const ScenarioInputs& inputs, FedBy fed_by, bool restocking, int days) {
    Draft draft{.inputs = inputs, .restocking = restocking};
    Scenario& scenario = draft.scenario;
    scenario.battery = inputs.battery;
    scenario.charger = inputs.charger;
    scenario.output_path = inputs.output_path;
    scenario.depth_limit = inputs.depth_limit;
    scenario.start_soc = inputs.start_soc;
    for (const ScheduledConsumer& planned : inputs.consumers) {
        if (planned.fed_by != fed_by) continue;
        scenario.consumers.push_back(planned.consumer);
        draft.counted.push_back({&planned});
    }
    draft.switching = switching_times(draft.counted);
    // Room for as many intervals as a day usually has.
    const auto intervals = static_cast<std::size_t>(days) * 32;
    scenario.intervals.reserve(intervals);
    scenario.needs.reserve(intervals * scenario.consumers.size());
    return draft;
}

FridgeNeed need_of(const Counted& counted, const FridgeRow& row) {
    const FridgePlan& plan = *counted.planned->fridge;
    const FridgeTally& tally = counted.fridge;
    const FridgeRange& range = tally.range.value();
    return {.name = counted.planned->consumer.name,
            .fridge = plan.model,
            .draw = plan.draw,
            .coolest = range.coolest,
            .hottest = range.hottest,
            .least_duty = range.least_duty,
            .greatest_duty = range.greatest_duty,
            .counted_at = plan.counted_at,
            .a_day_cool = tally.a_day_cool,
            .a_day_hot = tally.a_day_hot,
            .overwhelmed = tally.overwhelmed,
            .warms_to = warmed_by(tally.most_owed, plan.volume, plan.inside, range.hottest, row, plan.held.coldest),
            .may_warm_to = may_become(plan.inside, row),
            .hottest_hour = fridge_duty(plan.model, plan.draw, range.hottest, plan.held, row),
            .most_put_in = tally.most_put_in,
            .all_put_in = tally.all_put_in / plan.counted_at,
            .lid = lid_openings(plan.opened.value_or(static_cast<int>(in_ratio(row.lid_openings))), plan.volume,
                                range.hottest, plan.held, row),
            .lid_counted = plan.opened.has_value(),
            .warm_start = warm_start(plan.volume, plan.inside, range.hottest, row, plan.held.coldest),
            .starts_cold = tally.starts_cold,
            .fed_by = counted.planned->fed_by};
}

Scenario finish(Draft&& draft) {
    for (const Counted& counted : draft.counted)
        if (counted.planned->fridge)
            draft.scenario.fridges.push_back(need_of(counted, draft.inputs.tables->fridges.front()));
    return std::move(draft.scenario);
}

// ---- a day in intervals ---------------------------------------------------------------------------------------------

/// Times closer than this are one.
constexpr Duration same_time = seconds(1);

bool contains(const std::vector<int>& days, int day) { return std::find(days.begin(), days.end(), day) != days.end(); }

bool on_at(const std::vector<ClockWindow>& windows, Duration time) {
    return std::any_of(windows.begin(), windows.end(),
                       [minute = in_minutes(time)](const ClockWindow& window) { return window.holds(minute); });
}

/// The times of a day at which something changes outside.
std::vector<Duration> changes_of(const Draft& draft, const DayPart& day, const std::optional<DaySun>& sun) {
    std::vector<Duration> times;
    times.reserve(48);
    for (int hour = 0; hour <= 24; ++hour) times.push_back(hours(hour));
    for (const Counted& counted : draft.counted) {
        if (!draft.restocking || !counted.planned->fridge) continue;
        for (const Restock& restock : counted.planned->fridge->restocks)
            if (contains(restock.days, day.number)) times.push_back(clock(restock.at));
    }
    if (!day.parked) {
        add_times(day.today.drives, times);
        if (draft.inputs.panel && sun) {
            times.push_back(sunrise(*sun));
            times.push_back(sunset_at(*sun));
        }
    }
    times.push_back(day.from);
    times.push_back(day.to);
    std::erase_if(times, [&](Duration time) { return time < day.from || time > day.to; });
    std::sort(times.begin(), times.end());
    times.erase(std::unique(times.begin(), times.end(), [](Duration a, Duration b) { return b - a < same_time; }),
                times.end());
    return times;
}

// ---- what is outside ------------------------------------------------------------------------------------------------

DayAir air_of(const DayConditions& day, const std::optional<DaySun>& sun) {
    return sun ? day_air(day.low, day.high, sunrise(*sun), sunset_at(*sun)) : day_air(day.low, day.high);
}

/// Share of the capacity that the cold takes away. A warm battery has all of it: the table is only asked below the coolest
/// temperature at which nothing was lost.
Ratio derating_at(Draft& draft, Temperature battery) {
    if (draft.whole_capacity_from && !(battery < *draft.whole_capacity_from)) return Ratio{};
    const Ratio lost = 1.0 - capacity_factor(*draft.inputs.tables, *draft.inputs.chemistry, battery);
    if (lost == Ratio{}) draft.whole_capacity_from = battery;
    return lost;
}

/// Charger and panel carry the battery's heater.
bool carries_heater(const ScenarioInputs& inputs, const Interval& interval) {
    return inputs.heater && interval.charger * nominal_voltage + interval.sun >= inputs.heater->power;
}

/// The battery's temperature at the end of the interval. One in which its heater does more than one thing becomes shorter.
void warm_battery(Draft& draft, Outside& outside) {
    const ScenarioInputs& inputs = draft.inputs;
    Interval& interval = outside.interval;
    const Temperature around = inputs.battery_where.around(interval.air, interval.driving, outside.sun);
    const Temperature before = draft.battery.value_or(around);
    interval.takes_charge = true;
    if (carries_heater(inputs, interval)) {
        constexpr Duration too_short = seconds(1);
        const HeaterStep step = heater_step(*inputs.heater, before, around, interval.length);
        interval.takes_charge = !step.warming;
        outside.heater = step.duty;
        draft.battery = step.after;
        if (step.took < interval.length - too_short) {
            interval.length = std::max(step.took, too_short);
            outside.end = outside.begin + interval.length;
        }
    } else {
        draft.battery =
            draft.battery ? lagged(*draft.battery, around, interval.length, inputs.battery_time_constant) : around;
    }
    interval.battery = *draft.battery;
}

/// The battery's temperature, and what follows from it.
void set_battery(Draft& draft, Outside& outside) {
    const ScenarioInputs& inputs = draft.inputs;
    Interval& interval = outside.interval;
    warm_battery(draft, outside);
    interval.derating = derating_at(draft, interval.battery);
    const Charging& charging = inputs.charging;
    interval.absorption = compensated_voltage(charging.absorption, charging.compensation, interval.battery).voltage;
    interval.float_ = compensated_voltage(charging.float_, charging.compensation, interval.battery).voltage;
    interval.cold_acceptance = cold_acceptance(inputs.battery, interval.battery, interval.derating);
    interval.takes_charge = interval.takes_charge && !inputs.battery.too_cold_to_charge(interval.battery) &&
                            !inputs.battery.too_hot_to_charge(interval.battery);
    interval.charge_limit = cold_charge_limit(inputs.battery, interval.battery);
    // A relay's link has the alternator's.
    if (interval.driving && inputs.relay) interval.absorption = interval.float_ = inputs.relay->held;
}

/// What the charger can give.
void set_charger(const ScenarioInputs& inputs, Outside& outside) {
    if (!outside.interval.driving) return;
    if (inputs.charger.link) {
        if (!inputs.relay) return;
        outside.interval.charger = inputs.relay->most;
        return;
    }
    const Charging& charging = inputs.charging;
    const Temperature around = charging.where.around(outside.interval.air, true, outside.sun);
    outside.interval.charger =
        inputs.charger.output * output_share(around, charging.full_output_to, charging.derate, charging.off_above);
}

/// What the panel's regulator can give.
void set_sun(Draft& draft, const DayPart& day, const std::optional<DaySun>& sun, Outside& outside) {
    if (day.parked || !draft.inputs.panel || !sun) return;
    // By night not the least: a battery that takes nothing would be held at a charger's voltage by it.
    if (outside.end < sunrise(*sun) + same_time || outside.begin > sunset_at(*sun) - same_time) return;
    const PanelPower power = panel_power(*draft.inputs.panel, *sun, outside.begin, outside.end, outside.interval.air,
                                         day.today.clearness, day.today.clearness_of);
    outside.interval.sun = power.power;
    if (auto& best = draft.scenario.best_sun; !best || power.power > best->power) best = power;
}

// ---- what has to run ------------------------------------------------------------------------------------------------

/// Warm things go into a fridge.
void put_in(const FridgePlan& plan, const Outside& outside, const FridgeRow& row, FridgeTally& tally) {
    for (const Restock& restock : plan.restocks) {
        // At 24:00 of a day begins the next one.
        const bool midnight = restock.at.minutes == minutes_in_a_day;
        const Duration at = midnight ? Duration{} : clock(restock.at);
        const int day = midnight ? outside.interval.day - 1 : outside.interval.day;
        if (abs(at - outside.begin) > seconds(1) || !contains(restock.days, day)) continue;
        const Temperature around = plan.where.around(outside.interval.air, outside.interval.driving, outside.sun);
        const Restocking put = restocking(restock.mass, restock.from, plan.inside, around, row, plan.held.coldest);
        tally.put_in += put.electric;
        tally.all_put_in += put.electric;
        if (outside.interval.day == 1) tally.starts_cold = false;
        if (!tally.most_put_in || put.electric > tally.most_put_in->electric) tally.most_put_in = put;
    }
}

void tally_up(FridgeTally& tally, Temperature around, Ratio steady, const FridgePlan& plan, Duration length) {
    if (tally.range) {
        FridgeRange& range = *tally.range;
        range = {std::min(range.coolest, around), std::max(range.hottest, around), std::min(range.least_duty, steady),
                 std::max(range.greatest_duty, steady)};
    } else {
        tally.range = FridgeRange{around, around, steady, steady};
    }
    if (steady > Ratio{1.0}) tally.overwhelmed += length;
    tally.owed = std::max<Energy>(tally.owed + (steady - 1.0) * plan.draw * length, Energy{});
    tally.most_owed = std::max(tally.most_owed, tally.owed);
    tally.today += steady * plan.draw * length / plan.counted_at;
}

/// Share of the time that a compressor has to run: against the heat that comes in, and for what was put in.
Ratio fridge_need(const FridgePlan& plan, const Outside& outside, const FridgeRow& row, FridgeTally& tally) {
    const Interval& interval = outside.interval;
    const Temperature around = plan.where.around(interval.air, interval.driving, outside.sun);
    Power mean = fridge_power(plan.model, around, plan.held, row);
    if (plan.opened) mean += lid_openings(*plan.opened, plan.volume, around, plan.held, row).electric / hours(24);
    const Ratio steady = mean / plan.draw;
    tally_up(tally, around, steady, plan, interval.length);
    return steady + std::exchange(tally.put_in, Energy{}) / (plan.draw * interval.length);
}

/// What the fridges need in that part of the day.
void set_fridge_needs(Draft& draft, const Outside& outside) {
    const FridgeRow& row = draft.inputs.tables->fridges.front();
    for (Counted& counted : draft.counted) {
        const auto& fridge = counted.planned->fridge;
        if (!fridge) continue;
        if (draft.restocking) put_in(*fridge, outside, row, counted.fridge);
        counted.fridge.need = fridge_need(*fridge, outside, row, counted.fridge);
    }
}

/// As much of that part of the day as no load goes on or off in.
void add_interval(Draft& draft, const Outside& outside, Duration begin, Duration end) {
    Interval interval = outside.interval;
    interval.from += begin - outside.begin;
    interval.length = end - begin;
    draft.scenario.intervals.push_back(interval);
    for (const Counted& counted : draft.counted) {
        const ScheduledConsumer& planned = *counted.planned;
        const auto of_a_load = [&] { return on_at(planned.hours, (begin + end) / 2.0) ? planned.duty : Ratio{}; };
        draft.scenario.needs.push_back(planned.warms_battery ? outside.heater
                                       : planned.fridge      ? counted.fridge.need
                                                             : of_a_load());
    }
}

void add_between_switchings(Draft& draft, const Outside& outside) {
    Duration begin = outside.begin;
    const std::vector<Duration>& switching = draft.switching;
    for (auto at = std::upper_bound(switching.begin(), switching.end(), Duration(outside.begin + same_time));
         at != switching.end() && *at < outside.end - same_time; ++at) {
        add_interval(draft, outside, begin, *at);
        begin = *at;
    }
    add_interval(draft, outside, begin, outside.end);
}

void close_day(Draft& draft, int number) {
    for (Counted& counted : draft.counted) {
        if (!counted.planned->fridge) continue;
        FridgeTally& tally = counted.fridge;
        const FridgePlan& plan = *counted.planned->fridge;
        // More than it can do in a day it does not take.
        const Charge today =
            std::min<Charge>(std::exchange(tally.today, Charge{}), plan.draw * hours(24) / plan.counted_at);
        tally.a_day_cool = number == 1 ? today : std::min(tally.a_day_cool, today);
        tally.a_day_hot = number == 1 ? today : std::max(tally.a_day_hot, today);
    }
}

// ---- the sun that heats ---------------------------------------------------------------------------------------------

/// Of full sun: what falls on the horizontal outside the air of what does there with the sun overhead. Where no place is
/// known, noon is full sun.
Ratio heating_sun(const std::optional<DaySun>& sun, Duration begin, Duration end) {
    return sun ? sun_share(*sun, begin, end) * noon_share(*sun) : usual_sun_share(begin, end);
}

/// What the day of a drive began with has been aired out.
Ratio soaked_before(const DayPart& day, const std::optional<DaySun>& sun, Duration time_constant) {
    Duration begin{};
    for (const ClockWindow& drive : day.today.drives) {
        if (drive.holds(in_minutes(day.from))) return {};
        if (clock(drive.to) <= day.from) begin = std::max(begin, clock(drive.to));
    }
    Ratio soaked{};
    for (; begin < day.from; begin += hours(1)) {
        const Duration end = std::min<Duration>(begin + hours(1), day.from);
        soaked = lagged_share(soaked, heating_sun(sun, begin, end), end - begin, time_constant).end;
    }
    return soaked;
}

/// An engine that runs airs the vehicle out.
SunShares heat_up(Draft& draft, const DayPart& day, const std::optional<DaySun>& sun, Duration begin, Duration end,
                  bool driving) {
    if (day.cloud) return {};
    const Ratio open = heating_sun(sun, begin, end);
    const LaggedShare closed = lagged_share(draft.soaked, open, end - begin, draft.inputs.vehicle_time_constant);
    draft.soaked = driving ? Ratio{} : closed.end;
    return {open, driving ? Ratio{} : closed.mean};
}

/// A part of a day, or a few where the battery is warmed in it.
void add_intervals(Draft& draft, const Outside& whole) {
    for (Outside part = whole; part.begin < whole.end; part.begin = part.end) {
        part.end = whole.end;
        part.heater = Ratio{};
        part.interval.from = whole.interval.from + (part.begin - whole.begin);
        part.interval.length = part.end - part.begin;
        set_battery(draft, part);
        set_fridge_needs(draft, part);
        add_between_switchings(draft, part);
    }
}

void add_day(Draft& draft, const DayPart& day) {
    const std::optional<Site>& site = draft.inputs.site;
    std::optional<DaySun> sun;
    if (site) sun = day_sun(site->latitude, site->day_of_year(day.number));
    if (!draft.scenario.first_day) draft.scenario.first_day = sun;
    const DayAir before = air_of(day.yesterday, sun), now = air_of(day.today, sun), after = air_of(day.tomorrow, sun);
    if (draft.scenario.intervals.empty() && !day.cloud)
        draft.soaked = soaked_before(day, sun, draft.inputs.vehicle_time_constant);
    const std::vector<Duration> times = changes_of(draft, day, sun);
    for (std::size_t i = 0; i + 1 < times.size(); ++i) {
        const Duration begin = times[i], end = times[i + 1], middle = (begin + end) / 2.0;
        Outside outside{{}, begin, end, {}};
        Interval& interval = outside.interval;
        interval.from = hours(24) * static_cast<double>(day.number - 1) + begin;
        interval.length = end - begin;
        interval.day = day.number;
        interval.driving = !day.parked && on_at(day.today.drives, middle);
        interval.air = air_temperature(before, now, after, middle);
        outside.sun = heat_up(draft, day, sun, begin, end, interval.driving);
        set_charger(draft.inputs, outside);
        set_sun(draft, day, sun, outside);
        add_intervals(draft, outside);
    }
    close_day(draft, day.number);
}

/// Of days that are as hot by day the one with the warmer night, and of nights that are as cold the one with the colder day.
bool hotter(const DayConditions& a, const DayConditions& b) {
    return a.high != b.high ? a.high > b.high : a.low > b.low;
}
bool colder(const DayConditions& a, const DayConditions& b) { return a.low != b.low ? a.low < b.low : a.high < b.high; }

const DayConditions& hottest_day(const ScenarioInputs& inputs) {
    const DayConditions* hottest = &inputs.day(1);
    for (int day = 2; day <= inputs.days(); ++day)
        if (hotter(inputs.day(day), *hottest)) hottest = &inputs.day(day);
    return *hottest;
}

const DayConditions& coldest_day(const ScenarioInputs& inputs) {
    const DayConditions* coldest = &inputs.day(1);
    for (int day = 2; day <= inputs.days(); ++day)
        if (colder(inputs.day(day), *coldest)) coldest = &inputs.day(day);
    return *coldest;
}

bool all_alike(const ScenarioInputs& inputs) {
    for (int day = 2; day <= inputs.days(); ++day)
        if (inputs.day(day).high != inputs.day(1).high || inputs.day(day).low != inputs.day(1).low) return false;
    return true;
}

}  // namespace

std::string_view show(ParkedDay day) {
    switch (day) {
        case ParkedDay::usual: return "usual";
        case ParkedDay::hottest: return "hottest";
        case ParkedDay::coldest: return "coldest";
    }
    return "";
}

Scenario trip_scenario(const ScenarioInputs& inputs, FedBy fed_by) {
    Draft draft = draft_of(inputs, fed_by, true, inputs.days());
    for (int day = 1; day <= inputs.days(); ++day)
        add_day(draft, {day, inputs.day(day - 1), inputs.day(day), inputs.day(day + 1), Duration{}, hours(24), false});
    return finish(std::move(draft));
}

bool judges_the_coldest(const ScenarioInputs& inputs) {
    return !all_alike(inputs) || coldest_day(inputs).low < celsius(0);
}

Scenario parked_scenario(const ScenarioInputs& inputs, Duration clock, int days, FedBy fed_by, ParkedDay on) {
    Draft draft = draft_of(inputs, fed_by, false, days);
    const bool cold = on == ParkedDay::coldest;
    const DayConditions& repeated = cold ? coldest_day(inputs) : hottest_day(inputs);
    for (int day = 1; day <= days; ++day)
        add_day(draft, {day, repeated, repeated, repeated, day == 1 ? clock : Duration{}, hours(24), true, cold});
    draft.scenario.parked_on = all_alike(inputs) ? ParkedDay::usual : on;
    return finish(std::move(draft));
}

std::optional<Scenario> one_drive_scenario(const ScenarioInputs& inputs, Duration length) {
    DayConditions lone = inputs.usual_day();
    if (lone.drives.empty()) return {};
    Duration from = clock(lone.drives.front().from);
    const Duration end = from + length;
    lone.drives = {{ClockTime{0}, ClockTime{minutes_in_a_day}}};
    const int days = static_cast<int>(std::ceil(end / hours(24)));
    Draft draft = draft_of(inputs, FedBy::house, false, days);
    for (int day = 1; day <= days; ++day, from = Duration{}) {
        const Duration to = std::min<Duration>(end - hours(24) * static_cast<double>(day - 1), hours(24));
        add_day(draft, {day, lone, lone, lone, from, to, false});
    }
    return finish(std::move(draft));
}

}  // namespace voltwright

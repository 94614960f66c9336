// Charging a lead battery and the end of its discharge, against figures that somebody printed.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/simulation/simulate.hpp"

#include <algorithm>
#include <vector>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

/// The battery of the bench: AGM, 105 Ah by its label, used, 95.69 Ah by a 20-hour test.
constexpr double bench_capacity = 95.69, bench_label = 105.0;

/// Charges a battery by steps of a minute, absorbing all the way, and answers the timeline.
std::vector<TimelinePoint> charged(const char* chemistry, Charge capacity, Ratio from, Current current, Duration time) {
    Scenario scenario = lone_scenario(usual_battery(chemistry, capacity), {});
    scenario.start_soc = from;
    for (int minute = 0; minute < static_cast<int>(in_minutes(time) + 0.5); ++minute)
        add_interval(scenario, minutes(1), {}, current).float_ = volts(14.4);
    SimulationOptions options;
    options.points = true;
    return simulate(scenario, options).points;
}

/// The first moment at which something is so.
template <class Is>
Duration first(const std::vector<TimelinePoint>& points, Is is) {
    for (const TimelinePoint& point : points)
        if (point.at > Duration{} && is(point)) return point.at;
    return hours(1000);
}

Duration until_soc(const std::vector<TimelinePoint>& points, Ratio soc) {
    return first(points, [&](const TimelinePoint& point) { return point.soc >= soc; });
}
Duration until_current(const std::vector<TimelinePoint>& points, Current current) {
    return first(points, [&](const TimelinePoint& point) { return point.source <= current; });
}

}  // namespace

// An instrumented series on one battery (read): AGM of 105 Ah that a 20-hour test found good for 95.69 Ah. From 49.5 %
// at 0.2 of the label 14.4 V are reached at 77.4 %, after 26.67 Ah; at 0.4 at 63.3 %. A page that repeats it gives the
// minutes: 76, and 20 with 13.5 Ah (read, weak). The acceptance in data/chemistries.toml was chosen by these and the two
// next tests, so they hold the choice; the band is 12 %.
TEST_CASE("charging to 14.4 V: 26.7 Ah in 76 minutes at C/5 and 13.5 Ah in 20 minutes at C/2.5, a bench series") {
    const auto until_held = [](Ratio from, Current current) {
        const auto points = charged("agm", ampere_hours(bench_capacity), from, current, hours(4));
        return until_current(points, 0.999 * current);
    };
    const Current fifth = ampere_hours(26.67) / minutes(76), two_fifths = ampere_hours(13.5) / minutes(20);
    const Duration slow = until_held(percent(49.5), fifth), fast = until_held(percent(50), two_fifths);
    CHECK(slow == near(minutes(76), minutes(9.1)));
    CHECK(fifth * slow == near(ampere_hours(26.67), ampere_hours(3.2)));
    CHECK(fast == near(minutes(20), minutes(2.4)));
    CHECK(two_fifths * fast == near(ampere_hours(13.5), ampere_hours(1.6)));
}

// The same series (read): an hour at 0.4 of the label, from half full, gave back 33.43 Ah when it was discharged again.
TEST_CASE("an hour at C/2.5 stores 33.4 Ah in a half full AGM, a bench series") {
    const auto points = charged("agm", ampere_hours(bench_capacity), percent(50), amperes(0.4 * bench_label), hours(1));
    CHECK((points.back().soc - percent(50)) * ampere_hours(bench_capacity) ==
          near(ampere_hours(33.43), ampere_hours(0.12 * 33.43)));
}

// The same series (read): from half full it was full, by a tail of 0.5 % of the capacity at 14.4 V, after about 5.5 hours
// at 0.2, and twice the current saved only about 12 minutes. Another AGM, of 125 Ah, at 0.15: a bit over 6 hours. Full is
// here that tail, or 99 %.
TEST_CASE("AGM from half full at C/5 is full after 5.5 hours within a fifth, and C/2.5 saves little, a bench series") {
    const Current tail = amperes(0.005 * bench_label);
    const auto slow = charged("agm", ampere_hours(bench_capacity), percent(49.5), amperes(0.2 * bench_label), hours(9));
    const auto fast = charged("agm", ampere_hours(bench_capacity), percent(50), amperes(0.4 * bench_label), hours(9));
    for (const Duration& full : {until_soc(slow, percent(99)), until_current(slow, tail)}) {
        CHECK(full >= hours(5.5 * 0.8));
        CHECK(full <= hours(5.5 * 1.2));
    }
    const Duration saved = until_current(slow, tail) - until_current(fast, tail);
    CHECK(saved > minutes(6));
    CHECK(saved < minutes(36));
    const auto larger = charged("agm", ampere_hours(125), percent(50), amperes(18.75), hours(9));
    CHECK(until_soc(larger, percent(99)) >= hours(6.2 * 0.8));
    CHECK(until_current(larger, amperes(0.625)) <= hours(6.2 * 1.2));
}

// Flooded batteries from half full at 0.15 of the capacity: 7 hours within a fifth. A bench's figure, at second hand
// (read, weak). Full is 99 %.
TEST_CASE("flooded from half full at 0.15 of the capacity is full after 7 hours within a fifth") {
    const Duration full =
        until_soc(charged("flooded", ampere_hours(100), percent(50), amperes(15), hours(12)), percent(99));
    CHECK(full >= hours(7 * 0.8));
    CHECK(full <= hours(7 * 1.2));
}

// Two battery makers' pages on AGM and gel (read): charging at up to 0.3 of the capacity, the voltage is reached at 80 to
// 90 % of charge; from empty to 95 % takes about 60 % of the whole time (a page that elsewhere has
// 80 to 90 % for it). The whole ends at a tail of 0.5 % here.
TEST_CASE(
    "sealed lead from empty: the voltage is reached at 80 to 90 %, and 95 % after 60 % of the time, makers' pages") {
    for (const double share : {0.15, 0.2}) {
        CAPTURE(share);
        const Current current = amperes(100 * share);
        const auto points = charged("agm", ampere_hours(100), Ratio{0.001}, current, hours(16));
        const Duration held = until_current(points, 0.999 * current);
        const auto then =
            std::find_if(points.begin(), points.end(), [&](const auto& point) { return point.at == held; });
        CHECK(then->soc >= percent(78));
        CHECK(then->soc <= percent(90));
        const double of_all = until_soc(points, percent(95)) / until_current(points, amperes(0.5));
        CHECK(of_all >= 0.6 * 0.85);
        CHECK(of_all <= 0.6 * 1.25);
    }
}

// A sealed-battery maker's page on cyclic charging at constant voltage, 25 degC (read): 50 Ah at 20 A into one of 100 Ah
// take 5.5 to 7.5 h after a fast discharge and 8.5 to 12.5 h after a slow one; the bench above found 5.5. The page does not
// say what it calls full: here a tail of 0.5 % of the capacity. What has to be put back is 1.02 to 1.05 times what was
// taken by that page, and 1.04 to 1.12 times by another maker's (read).
TEST_CASE("recharging 50 Ah of 100 Ah at 20 A takes no less than 5.5 and no more than 12.5 hours, a maker's page") {
    const auto points = charged("agm", ampere_hours(100), percent(50), amperes(20), hours(16));
    const Duration full = until_current(points, amperes(0.5));
    CHECK(full >= hours(5.5));
    CHECK(full <= hours(12.5));
    Charge put_in{};
    for (const TimelinePoint& point : points)
        if (point.at <= full) put_in += point.source * minutes(1);
    const Ratio put_back = put_in / ampere_hours(50);
    CHECK(put_back >= 1.04);
    CHECK(put_back <= 1.12);
}

// Closed form of constant current and then constant voltage (recomputed from its equations): emf 11.8 V + 2.5 V·s, 0.05
// ohm, 100 Ah, 20 A, 14.4 V, from half full: 0.7 h at constant current, to 0.64; then these.
TEST_CASE("constant current and then constant voltage: worked example, 0.7 h to 64 %, then 79.7, 89.3 and 95.1 %") {
    HouseBattery battery = usual_battery("lfp", ampere_hours(100));
    battery.one_well = false;  // it goes on above 98 %
    battery.kinetics = {1.0, ChargeRate{}, 1.0};
    battery.whole = battery.capacity = ampere_hours(100);
    battery.charge_efficiency = 1.0;
    battery.gassing_fall = Ratio{1e9};
    battery.charge_above.reset();
    battery.self_discharge = Current{};
    for (BatteryLevel& mark : battery.levels) {
        mark.open = volts(11.8) + mark.level * volts(2.5);
        mark.giving = mark.taking = milliohms(50);
    }
    Scenario scenario = lone_scenario(battery, {});
    scenario.start_soc = percent(50);
    add_interval(scenario, hours(0.7), {}, amperes(20));
    for (int hour = 0; hour < 3; ++hour) add_interval(scenario, hours(1), {}, amperes(20));
    for (Interval& interval : scenario.intervals) interval.float_ = interval.absorption;
    SimulationOptions options;
    options.points = true;
    const TripResult trip = simulate(scenario, options);
    REQUIRE(trip.points.size() == 5);
    const double soc[] = {0.5, 0.64, 0.797387, 0.892848, 0.950748};
    const double current[] = {20.0, 20.0, 12.1306, 7.3576, 4.4626};
    for (std::size_t i = 0; i < 5; ++i) {
        CAPTURE(i);
        CHECK(trip.points[i].soc == near(Ratio{soc[i]}, Ratio{1e-6}));
        CHECK(trip.points[i].battery == near(amperes(current[i]), amperes(5e-5)));
    }
}

// The 20-hour rate of a lead battery ends at 1.75 V a cell, 10.5 V (usual definition; read, weak).
TEST_CASE("the 20-hour rate empties a lead battery after 20 hours, at 10.5 V") {
    for (const char* chemistry : {"flooded", "agm", "gel"}) {
        CAPTURE(chemistry);
        HouseBattery battery = usual_battery(chemistry, ampere_hours(100));
        battery.self_discharge = Current{};
        Consumer load{"load", amperes(5), Resistance{}, true, false, {}};
        Scenario scenario = lone_scenario(battery, {load});
        scenario.depth_limit = Ratio{1.2};  // so that nothing but the battery ends it
        for (int i = 0; i < 120; ++i) add_interval(scenario, minutes(15), {1.0});
        SimulationOptions options;
        options.points = true;
        options.stop_at_limit = true;
        const TripResult trip = simulate(scenario, options);
        CHECK(trip.lasted == near(hours(20), minutes(1)));
        CHECK(trip.ended_by == EndedBy::depleted);
        scenario.intervals.resize(80);
        CHECK(simulate(scenario, options).points[79].terminals > volts(10.55));
        scenario.intervals.back().length = minutes(14.9);
        CHECK(simulate(scenario, options).points.back().terminals == near(volts(10.5), volts(0.02)));
    }
}

// A maker's sheet of a flooded deep-cycle battery (read): 367 Ah in 100 hours where 330 in 20, 1.11 times; a dealer's page
// 250 where 225 (read, weak). Only who allows the whole of it has that: a depth limit counts 20-hour ampere-hours.
TEST_CASE("emptied in a hundred hours a flooded battery gives a ninth more than in twenty, a maker's sheet") {
    Consumer load{"load", amperes(1.11), Resistance{}, true, false, {}};
    Scenario scenario = lone_scenario(usual_battery("flooded", ampere_hours(100)), {load});
    for (int hour = 0; hour < 150; ++hour) add_interval(scenario, hours(1), {1.0});
    SimulationOptions options;
    options.stop_at_limit = true;
    const TripResult whole = simulate(scenario, options);
    CHECK(whole.ended_by == EndedBy::depleted);
    CHECK(whole.ledger.used == near(ampere_hours(111), ampere_hours(4)));
    scenario.depth_limit = Ratio{0.5};
    CHECK(simulate(scenario, options).ledger.used == near(ampere_hours(50), ampere_hours(1)));
}

// Seven user manuals of compressor fridges (read): standard setting off at 10.4 V, on again at 11.7 V.
TEST_CASE("a fridge goes off at 10.4 V at its terminals and on again only at 11.7 V, user manuals") {
    const FridgeGuardRow& standard = *find_fridge_guard(built_in_tables(), "standard");
    const LowVoltageCutOff cut_off{standard.cut_out, standard.cut_in};
    Consumer fridge{"fridge", watts(48), milliohms(60), true, true, {{cut_off, cut_off}}};
    Scenario scenario = lone_scenario(usual_battery("flooded", ampere_hours(60)), {fridge});
    scenario.start_soc = percent(30);
    for (int i = 0; i < 60 * 12; ++i) add_interval(scenario, minutes(1), {1.0}, i < 480 ? Current{} : amperes(2));
    SimulationOptions options;
    options.points = true;
    const TripResult trip = simulate(scenario, options);
    REQUIRE(trip.served.front().cut_offs >= 1);
    bool on = true;
    int back = 0;
    for (const TimelinePoint& point : trip.points) {
        const bool now = point.battery - point.source < -amperes(1);
        if (now && !on) ++back;
        if (now) {
            const Current current = point.source - point.battery;
            CHECK(point.terminals - current * milliohms(60) >= volts(10.4 - 0.01));
        } else {
            CHECK(point.terminals <= volts(11.7 + 0.01));
        }
        on = now;
    }
    CHECK(back >= 1);
}

namespace {

/// What has to be put back of what was taken, of a battery of 100 Ah charged from half full at `current` for a time.
Ratio put_back(const char* chemistry, Current current, Duration time) {
    Scenario scenario = lone_scenario(usual_battery(chemistry, ampere_hours(100)), {});
    scenario.start_soc = percent(50);
    for (int quarter = 0; quarter < static_cast<int>(in_hours(time) * 4 + 0.5); ++quarter)
        add_interval(scenario, minutes(15), {}, current);
    for (Interval& interval : scenario.intervals) interval.float_ = interval.absorption;
    const TripResult trip = simulate(scenario);
    return trip.ledger.from_charger / ((trip.end - percent(50)) * ampere_hours(100));
}

/// How long a battery of 100 Ah at one temperature takes from half full to 90 % at 25 A.
Duration until_90_percent(const char* chemistry, Temperature battery) {
    Scenario scenario = lone_scenario(usual_battery(chemistry, ampere_hours(100)), {});
    scenario.start_soc = percent(50);
    for (int step = 0; step < 12 * 24; ++step) {
        Interval& interval = add_interval(scenario, minutes(5), {}, amperes(25));
        interval.battery = battery;
        interval.cold_acceptance = cold_acceptance(scenario.battery, battery);
        interval.float_ = interval.absorption;
    }
    SimulationOptions options;
    options.points = true;
    for (const TimelinePoint& point : simulate(scenario, options).points)
        if (point.soc >= percent(90)) return point.at;
    return hours(24);
}

}  // namespace

// A battery maker's page (read): of what was taken 1.15 to 1.30 times has to be put back into flooded batteries, 1.04 to
// 1.12 times into AGM and gel. The gassing fall in data/chemistries.toml was chosen to meet these.
TEST_CASE("flooded batteries take back 1.15 to 1.30 times what was taken, in five to ten hours, a maker's page") {
    for (const double current : {15.0, 20.0})
        for (const double time : {5.0, 7.0, 10.0}) {
            CAPTURE(current);
            CAPTURE(time);
            const Ratio again = put_back("flooded", amperes(current), hours(time));
            CHECK(again >= 1.15);
            CHECK(again <= 1.30);
        }
    for (const char* chemistry : {"agm", "gel"})
        for (const double time : {5.0, 7.0, 10.0}) {
            CAPTURE(chemistry);
            CAPTURE(time);
            const Ratio again = put_back(chemistry, amperes(20), hours(time));
            CHECK(again >= 1.04);
            CHECK(again <= 1.12);
        }
}

// Trade pages (read, weak): lead takes about half of the current or less at freezing point; a rule prints a doubling
// for every 10 K. The time is more than the current tells, for all of it flows until the voltage is reached.
TEST_CASE(
    "lead is charged slower in the cold: a quarter longer at freezing point and twice as long in frost, trade pages") {
    for (const char* chemistry : {"flooded", "agm", "gel"}) {
        CAPTURE(chemistry);
        const Duration warm = until_90_percent(chemistry, celsius(25)), cold = until_90_percent(chemistry, celsius(0));
        CHECK(cold >= 1.25 * warm);
        CHECK(until_90_percent(chemistry, celsius(-20)) >= 2.0 * warm);
        CHECK(until_90_percent(chemistry, celsius(40)) == warm);
    }
    CHECK(until_90_percent("lfp", celsius(5)) == until_90_percent("lfp", celsius(25)));
}

// US Army TM 5-4210-230 (read): batteries made for starting freeze at -59.5, -37.2, -26.1, -15.0 and -9.4 degC at full,
// three quarters, half, a quarter and empty.
TEST_CASE("the acid of a lead battery freezes where an army manual prints it") {
    const double printed[][2] = {{100, -59.5}, {75, -37.2}, {50, -26.1}, {25, -15.0}, {0, -9.4}};
    for (const char* chemistry : {"flooded", "agm", "gel"})
        for (const auto& [soc, freezes] : printed) {
            CAPTURE(chemistry);
            CAPTURE(soc);
            const auto at = freezes_at(usual_battery(chemistry, ampere_hours(100)), percent(soc));
            REQUIRE(at);
            CHECK(*at == near(celsius(freezes), kelvins(0.05)));
        }
    CHECK_FALSE(freezes_at(usual_battery("lfp", ampere_hours(100)), percent(20)));
}

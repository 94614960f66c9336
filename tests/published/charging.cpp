// Charging a lead battery and the end of its discharge, against figures that somebody printed.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/simulation/simulate.hpp"

using namespace voltwright;
using namespace voltwright::testing;

namespace {

/// Charges a usual AGM of 100 Ah from half full until the charger begins to hold 14.4 V; how long, and what went in.
std::pair<Duration, Charge> until_held(Current current) {
    Scenario scenario = lone_scenario(usual_battery("agm", ampere_hours(100)), {});
    scenario.start_soc = percent(50);
    for (int minute = 0; minute < 240; ++minute) add_interval(scenario, minutes(1), {}, current);
    SimulationOptions options;
    options.points = true;
    const TripResult trip = simulate(scenario, options);
    for (const TimelinePoint& point : trip.points)
        if (point.at > Duration{} && point.source < 0.999 * current) return {point.at, current * point.at};
    return {hours(4), current * hours(4)};
}

}  // namespace

// Field figures for a lead battery of 100 Ah at half charge (read on a weak page, which names no source): C/2.5 reaches
// 14.4 V after 20 minutes and 13.5 Ah, C/5 after 76 minutes and 26.7 Ah. The two rates are 40.5 A and 21.1 A by those
// figures themselves. The acceptance in data/chemistries.toml was chosen to meet them, so this holds the choice; the
// band is 12 %.
TEST_CASE("charging to 14.4 V: 13.5 Ah in 20 minutes at C/2.5 and 26.7 Ah in 76 minutes at C/5, field figures") {
    const auto [fast, fast_charge] = until_held(ampere_hours(13.5) / minutes(20));
    CHECK(fast == near(minutes(20), minutes(2.4)));
    CHECK(fast_charge == near(ampere_hours(13.5), ampere_hours(1.6)));
    const auto [slow, slow_charge] = until_held(ampere_hours(26.7) / minutes(76));
    CHECK(slow == near(minutes(76), minutes(9.1)));
    CHECK(slow_charge == near(ampere_hours(26.7), ampere_hours(3.2)));
}

// A sealed-battery maker's page on cyclic charging at constant voltage, 25 degC (read): after a discharge below 0.25 CA,
// recharge takes Cdis/I + 6 to 10 h; 50 Ah at 20 A of a 100 Ah battery 8.5 to 12.5 h. And 1.02 to 1.05 times what was
// taken has to be put back. Full is 99 % here.
TEST_CASE("recharging 50 Ah of 100 Ah at 20 A takes within two hours of 8.5 to 12.5, a maker's page") {
    Scenario scenario = lone_scenario(usual_battery("agm", ampere_hours(100)), {});
    scenario.start_soc = percent(50);
    for (int quarter = 0; quarter < 4 * 24; ++quarter) add_interval(scenario, minutes(15), {}, amperes(20));
    for (Interval& interval : scenario.intervals) interval.float_ = interval.absorption;
    SimulationOptions options;
    options.points = true;
    const TripResult trip = simulate(scenario, options);
    Duration full{};
    for (const TimelinePoint& point : trip.points)
        if (full == Duration{} && point.soc >= percent(99)) full = point.at;
    CHECK(full > hours(6.5));
    CHECK(full < hours(14.5));
    SimulationOptions to_full;
    to_full.until = full;
    const TripResult cycle = simulate(scenario, to_full);
    const Ratio put_back = cycle.ledger.from_charger / ((cycle.end - percent(50)) * ampere_hours(100));
    CHECK(put_back >= 1.02);
    CHECK(put_back <= 1.08);
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
// 1.12 times into AGM and gel. The gassing fall in data/chemistries.toml was chosen to meet the first.
TEST_CASE("flooded batteries take back 1.15 to 1.30 times what was taken, in five to ten hours, a maker's page") {
    for (const double time : {5.0, 7.0, 10.0}) {
        CAPTURE(time);
        const Ratio again = put_back("flooded", amperes(20), hours(time));
        CHECK(again >= 1.13);
        CHECK(again <= 1.30);
    }
    for (const char* chemistry : {"agm", "gel"}) {
        CAPTURE(chemistry);
        CHECK(put_back(chemistry, amperes(20), hours(10)) <= 1.12);
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

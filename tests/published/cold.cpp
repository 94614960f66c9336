// Frost: how lead charges and freezes, and how lithium is warmed, against figures that somebody printed.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/energy/battery_heater.hpp"
#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/energy/charger.hpp"
#include "voltwright/simulation/simulate.hpp"

using namespace voltwright;
using namespace voltwright::testing;

namespace {

/// How long a usual battery of 100 Ah takes from half full to 90 %, with a charger of 20 A whose sensor sits on it or not.
Duration to_ninety(std::string_view chemistry, Temperature battery, bool sensor) {
    const HouseBattery usual = usual_battery(chemistry, ampere_hours(100));
    const ChemistryRow& row = *find_chemistry(built_in_tables(), chemistry);
    Scenario scenario = lone_scenario(usual, {});
    scenario.start_soc = percent(50);
    for (int part = 0; part < 12 * 48; ++part) {
        Interval& interval = add_interval(scenario, minutes(5), {}, amperes(20));
        interval.battery = battery;
        interval.absorption = interval.float_ =
            compensated_voltage(row.absorption, sensor ? compensation_of(row) : Compensation{}, battery).voltage;
        interval.derating = Ratio{1.0} - capacity_factor(built_in_tables(), chemistry, battery);
        interval.cold_acceptance = cold_acceptance(usual, battery, interval.derating);
    }
    SimulationOptions options;
    options.points = true;
    for (const TimelinePoint& point : simulate(scenario, options).points)
        if (point.soc >= percent(90)) return point.at;
    return hours(48);
}

/// At the 20-hour rate, a capacity in the cold against that at 25 degC.
Ratio delivered(std::string_view chemistry, Ratio derating) {
    HouseBattery battery = usual_battery(chemistry, ampere_hours(100));
    Scenario scenario = lone_scenario(battery, {{"load", amperes(5), Resistance{}, true, false, {}}});
    scenario.depth_limit = Ratio{1.2};
    for (int i = 0; i < 120; ++i) add_interval(scenario, minutes(15), {1.0}).derating = derating;
    SimulationOptions options;
    options.stop_at_limit = true;
    return simulate(scenario, options).lasted / hours(20);
}

}  // namespace

// "Takes at least half as long again at 0 degC": a textbook has half of the current or less (recalled), trade pages half for
// each 10 K (read weakly), common practice half for each 15 K. The new start battery of EN 50342-1 has to take 0.2 of its
// capacity after ten minutes at 0 degC and 14.4 V (recalled).
TEST_CASE("lead takes at least half as long again to charge at 0 degC as at 25 degC, and longer in frost") {
    for (const char* chemistry : {"flooded", "agm", "gel"})
        for (const bool sensor : {true, false}) {
            CAPTURE(chemistry);
            CAPTURE(sensor);
            const Duration warm = to_ninety(chemistry, celsius(25), sensor);
            const Duration cold = to_ninety(chemistry, celsius(0), sensor);
            const Duration frost = to_ninety(chemistry, celsius(-15), sensor);
            MESSAGE(show(warm) << " " << show(cold) << " " << show(frost));
            CHECK(cold >= 1.5 * warm);
            CHECK(frost > 1.2 * cold);
            CHECK(warm < hours(8));
        }
}

// EN 50342-1, charge acceptance of a new start battery (recalled): half charged, at 0 degC and 14.40 V it has to take 0.2 of its
// capacity after ten minutes. A test for new ones of a type that takes much: the usual one here is to be within reach of it.
TEST_CASE(
    "a half charged start battery at 0 degC and 14.4 V takes some 0.2 C after ten minutes, EN 50342-1 (recalled)") {
    const HouseBattery battery = usual_battery("flooded", ampere_hours(100));
    Scenario scenario = lone_scenario(battery, {});
    scenario.start_soc = percent(50);
    for (int minute = 0; minute < 10; ++minute) {
        Interval& interval = add_interval(scenario, minutes(1), {}, amperes(100));
        interval.derating = Ratio{1.0} - capacity_factor(built_in_tables(), "flooded", celsius(0));
        interval.cold_acceptance = cold_acceptance(battery, celsius(0), interval.derating);
    }
    SimulationOptions options;
    options.points = true;
    const Current taken = simulate(scenario, options).points.back().battery;
    MESSAGE(show(taken));
    CHECK(taken > amperes(14));
    CHECK(taken < amperes(26));
}

// A maker of sealed lead, discharge of more than 60 minutes: 84 % at 0 degC and 90 % at 10 degC (read). Out of the terminals at
// the 20-hour rate, not only by the table: within 3 points.
TEST_CASE("sealed lead delivers 84 % at 0 degC and 90 % at 10 degC at the 20-hour rate, a maker's table") {
    for (const auto& [at, share] : {std::pair{0.0, 84.0}, std::pair{10.0, 90.0}}) {
        CAPTURE(at);
        const Ratio derating = Ratio{1.0} - capacity_factor(built_in_tables(), "agm", celsius(at));
        CHECK(in_percent(delivered("agm", derating)) == near(share, 3));
    }
}

// US Army TM 5-4210-230 (read), by density. And the point of another army manual at the
// density that it gives a battery at half charge, 1.190: between 1.150 and 1.200, -15.0 and -26.7 degC (read; a vehicle's owner's
// manual has -27.2).
TEST_CASE("the acid of a start battery freezes at -9, -15, -26, -37 and -60 degC from empty to full (read)") {
    const HouseBattery battery = usual_battery("flooded", ampere_hours(100));
    struct Row {
        double soc, celsius;
    };
    for (const Row& row : {Row{0, -9.4}, Row{25, -15.0}, Row{50, -26.1}, Row{75, -37.2}, Row{100, -59.5}}) {
        CAPTURE(row.soc);
        CHECK(*freezes_at(battery, percent(row.soc)) == near(celsius(row.celsius), kelvins(0.05)));
        CHECK(*charge_that_freezes_at(battery, celsius(row.celsius)) == near(percent(row.soc), percent(0.5)));
    }
    CHECK(*freezes_at(battery, percent(50)) > celsius(-26.7));
    CHECK(*freezes_at(battery, percent(50)) < celsius(-15.0));
    CHECK_FALSE(freezes_at(usual_battery("lfp", ampere_hours(100)), percent(0)));
    // Beyond the print: what is emptier than empty freezes as empty, and no charge bears more than the full one.
    CHECK(*charge_that_freezes_at(battery, celsius(-5)) == percent(0));
    CHECK(*charge_that_freezes_at(battery, celsius(-80)) == percent(100));
}

// 12 kg from -20 to 5 degC: 83 Wh, 1.4 h at 60 W where nothing is lost (worked out apart from this code, 1.0 kJ/(kg K) from
// memory). What is lost makes it longer, by no more than the mean of what the surroundings take.
TEST_CASE("a heater of 60 W warms 12 kg of lithium from -20 to 5 degC in 1.4 h and a little more") {
    const BatteryHeaterRow& row = built_in_tables().battery_heaters.front();
    REQUIRE(row.warms_to == near(celsius(5), kelvins(1e-9)));
    const BatteryHeater lossless = battery_heater(row, watts(60), ampere_hours(100), hours(1e6));
    const HeaterStep ideal = heater_step(lossless, celsius(-20), celsius(-20), hours(24));
    CHECK(in_hours(ideal.took) == near(1.4, 0.05));
    CHECK(in_watt_hours(watts(60) * ideal.took) == near(83, 0.5));
    CHECK(ideal.warming);
    const BatteryHeater usual = battery_heater(row, watts(60), ampere_hours(100), hours(4));
    const HeaterStep real = heater_step(usual, celsius(-20), celsius(-20), hours(24));
    CHECK(real.took > ideal.took);
    CHECK(real.took < 1.3 * ideal.took);
    CHECK(real.after == near(celsius(5), kelvins(1e-9)));
}

// A cell maker's manual (fast charging) and a guideline for packs (read): nothing below 0 degC, 0.1 C below 5 degC, 0.2 C
// below 10 degC.
TEST_CASE("cold lithium is counted on for no more charge than a cell maker's manual allows (read)") {
    const HouseBattery battery = usual_battery("lfp", ampere_hours(100));
    CHECK(*cold_charge_limit(battery, celsius(0)) == near(amperes(10), amperes(1e-9)));
    CHECK(*cold_charge_limit(battery, celsius(7)) == near(amperes(20), amperes(1e-9)));
    CHECK_FALSE(cold_charge_limit(battery, celsius(10)));
    Scenario scenario = lone_scenario(battery, {{"lamp", amperes(3), Resistance{}, true, false, {}}});
    scenario.start_soc = percent(40);
    add_interval(scenario, hours(2), {1.0}, amperes(40)).charge_limit = amperes(10);
    const TripResult trip = simulate(scenario);
    CHECK(trip.end == near(percent(60), percent(0.5)));
    CHECK(trip.ledger.from_charger == near(ampere_hours(26), ampere_hours(0.1)));
    CHECK(abs(trip.ledger.open()) < ampere_hours(1e-9));
}

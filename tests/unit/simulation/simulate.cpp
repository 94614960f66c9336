// Edges of a simulation and of what it is given.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/simulation/autonomy.hpp"

using namespace voltwright;
using namespace voltwright::testing;

namespace {

const std::string vehicle = R"([trip]
days = 3
low = "20 degC"
high = "30 degC"
[battery]
chemistry = "lfp"
capacity = "200 Ah"
[charger]
output = "25 A"
[[run]]
to = "charger"
length = "6 m"
[[fridge]]
draw = "50 W"
rated = [{ around = "25 degC", a_day = "20 Ah" }]
)";

TripResult trip_of(const std::string& text) {
    const System system = system_of_text(text);
    const Plan plan = make_plan(system);
    return simulate(trip_scenario(scenario_inputs(system, laid_runs(plan.runs), built_in_tables())));
}

}  // namespace

TEST_CASE("a simulation ends where it is told to, within an interval too") {
    Consumer load{"load", amperes(5), Resistance{}, false, false, {}};
    Scenario scenario = lone_scenario(usual_battery("agm", ampere_hours(100)), {load});
    for (int hour = 0; hour < 4; ++hour) add_interval(scenario, hours(1), {1.0});
    SimulationOptions options;
    options.until = hours(2.5);
    const TripResult trip = simulate(scenario, options);
    CHECK(trip.lasted == near(hours(2.5), seconds(1e-6)));
    CHECK(trip.ledger.used == near(ampere_hours(12.5), ampere_hours(1e-9)));
}

// 10 kg of water from 25 to 5 degC give up 10·4.186·20 kJ = 837 kJ, 233 Wh; at a coefficient of performance between 1 and
// 3 that is 6.5 to 19.4 Ah at 12 V (textbook constants; energy at the battery is a little more than at 12 V).
TEST_CASE("what is put in warm costs what its heat says, at any time of day") {
    const Charge without = trip_of(vehicle).ledger.used;
    for (const char* at : {"00:00", "13:20", "24:00"}) {
        CAPTURE(at);
        const std::string restock =
            "[[fridge.restock]]\non = \"1\"\nmass = \"10 kg\"\nfrom = \"25 degC\"\nat = \"" + std::string(at) + "\"\n";
        const Charge more = trip_of(vehicle + restock).ledger.used - without;
        CHECK(more > ampere_hours(6.0));
        CHECK(more < ampere_hours(19.4));
    }
}

TEST_CASE("a battery that is flat leaves its loads without power, and takes them back when it is charged") {
    Consumer load{"load", watts(60), milliohms(20), true, false, {}};
    for (const char* chemistry : {"flooded", "agm", "gel", "lfp"}) {
        CAPTURE(chemistry);
        Scenario scenario = lone_scenario(usual_battery(chemistry, ampere_hours(40)), {load});
        for (int hour = 0; hour < 24; ++hour)
            add_interval(scenario, hours(1), {1.0}, hour < 20 ? Current{} : amperes(20));
        const TripResult trip = simulate(scenario);
        CHECK(trip.served.front().off > hours(8));
        CHECK(trip.served.front().off < hours(15));
        CHECK(trip.served.front().unserved ==
              near(watt_hours(60.0 * in_hours(trip.served.front().off)), watt_hours(0.01)));
        CHECK(trip.end > percent(20));
        CHECK(abs(trip.ledger.open()) < 1e-9 * trip.ledger.throughput());
    }
}

// ---- the depth limit ------------------------------------------------------------------------------------------------

namespace {

/// 100 Ah, one load of so many amperes day and night, hour after hour.
Scenario one_current(const char* chemistry, Current current, Ratio depth_limit) {
    Scenario scenario =
        lone_scenario(usual_battery(chemistry, ampere_hours(100)), {{"box", current, Resistance{}, true, false, {}}});
    scenario.depth_limit = depth_limit;
    for (int hour = 0; hour < 24; ++hour) add_interval(scenario, hours(1), {1.0});
    return scenario;
}

}  // namespace

// By hand: the ampere-hours above the limit over the amperes. What the battery loses by itself is some milliamperes.
TEST_CASE("a battery lasts for what is above its limit, over the current") {
    struct Case {
        const char* chemistry;
        double amperes, depth, from, hours;
    };
    for (const Case& one :
         {Case{"lfp", 10, 0.8, 0.25, 0.5}, Case{"lfp", 10, 0.8, 0.24, 0.4}, Case{"lfp", 10, 0.8, 0.26, 0.6},
          Case{"lfp", 10, 0.8, 0.30, 1.0}, Case{"lfp", 10, 0.8, 1.00, 8.0}, Case{"lfp", 60, 0.8, 0.30, 10.0 / 60.0},
          Case{"lfp", 60, 0.8, 1.00, 80.0 / 60.0}, Case{"lfp", 10, 0.8, 0.20, 0.0}, Case{"agm", 10, 0.5, 0.50, 0.0},
          Case{"agm", 10, 0.5, 0.501, 0.01}, Case{"agm", 10, 0.5, 0.60, 1.0}, Case{"agm", 5, 0.5, 1.0, 10.0},
          Case{"gel", 2, 0.65, 0.40, 2.5}, Case{"flooded", 4, 0.5, 0.52, 0.5}}) {
        CAPTURE(one.chemistry);
        CAPTURE(one.amperes);
        CAPTURE(one.from);
        const Autonomy found = autonomy(one_current(one.chemistry, amperes(one.amperes), Ratio{one.depth}),
                                        Ratio{one.from}, CutOffSetting::standard);
        CHECK(found.ended_by == EndedBy::depth_limit);
        CHECK(found.lasts == near(hours(one.hours), hours(0.001 + 0.004 * one.hours)));
        CHECK(found.end == near(Ratio{1.0 - one.depth}, Ratio{1e-6}));
        CHECK(found.used == near(ampere_hours(one.hours * one.amperes), ampere_hours(0.01 + 0.004 * one.hours * 10)));
    }
}

TEST_CASE("a trip says the minute at which the limit is passed, not the end of the hour") {
    struct Case {
        const char* chemistry;
        double depth, start, hours;
    };
    for (const Case& one : {Case{"lfp", 0.8, 0.75, 5.5}, Case{"lfp", 0.8, 0.25, 0.5}, Case{"lfp", 0.8, 0.2, 0.0},
                            Case{"agm", 0.5, 0.75, 2.5}, Case{"agm", 0.5, 0.5, 0.0}}) {
        CAPTURE(one.chemistry);
        CAPTURE(one.start);
        Scenario scenario = one_current(one.chemistry, amperes(10), Ratio{one.depth});
        scenario.start_soc = Ratio{one.start};
        const TripResult trip = simulate(scenario);
        REQUIRE(trip.below_limit);
        CHECK(trip.below_limit->day == 1);
        CHECK(trip.below_limit->clock == near(hours(one.hours), seconds(30)));
    }
}

TEST_CASE("a battery that begins at its limit and is charged is never below it") {
    for (const char* chemistry : {"flooded", "agm", "gel", "lfp"})
        for (int percent_used = 20; percent_used <= 90; ++percent_used) {
            CAPTURE(chemistry);
            CAPTURE(percent_used);
            Scenario scenario = lone_scenario(usual_battery(chemistry, ampere_hours(95)), {});
            scenario.depth_limit = Ratio{percent_used / 100.0};
            scenario.start_soc = 1.0 - scenario.depth_limit;
            add_interval(scenario, hours(1), {}, amperes(10));
            CHECK(!simulate(scenario).below_limit);
        }
}

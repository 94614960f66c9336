// What comes back comes back at its own moment, however the time is cut into intervals.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/simulation/simulate.hpp"

using namespace voltwright;
using namespace voltwright::testing;

namespace {

/// A day of one load, in so many equal intervals; charged in its last quarter.
TripResult a_day_in(int intervals, const char* chemistry, const Consumer& load, Current charger) {
    Scenario scenario = lone_scenario(usual_battery(chemistry, ampere_hours(40)), {load});
    scenario.output_path = milliohms(10);
    for (int i = 0; i < intervals; ++i)
        add_interval(scenario, hours(24.0 / intervals), {1.0}, 4 * i < 3 * intervals ? Current{} : charger);
    return simulate(scenario);
}

void same_in_any_intervals(const char* chemistry, const Consumer& load, Current charger) {
    CAPTURE(chemistry);
    const TripResult coarse = a_day_in(4, chemistry, load, charger);
    REQUIRE(coarse.served.front().off > hours(1));
    for (const int intervals : {24, 96, 1440}) {
        CAPTURE(intervals);
        const TripResult fine = a_day_in(intervals, chemistry, load, charger);
        CHECK(fine.end == near(coarse.end, Ratio{1e-6}));
        CHECK(fine.lowest == near(coarse.lowest, Ratio{1e-6}));
        CHECK(fine.served.front().used == near(coarse.served.front().used, ampere_hours(0.001)));
        CHECK(fine.served.front().off == near(coarse.served.front().off, seconds(1)));
        CHECK(fine.served.front().cut_offs == coarse.served.front().cut_offs);
    }
}

}  // namespace

TEST_CASE("a depleted battery serves again when it has recovered, not when an interval begins") {
    for (const char* chemistry : {"flooded", "agm", "gel", "lfp"})
        for (const double charger : {0.0, 3.0, 20.0}) {
            CAPTURE(charger);
            same_in_any_intervals(chemistry, {"lamp", watts(60), milliohms(20), true}, amperes(charger));
        }
}

TEST_CASE("a load without a reconnect voltage comes back when it would run, not when an interval begins") {
    const LowVoltageCutOff limits{volts(11.9), {}};
    for (const char* chemistry : {"flooded", "agm", "gel"})
        for (const double charger : {0.0, 3.0, 20.0}) {
            CAPTURE(charger);
            same_in_any_intervals(chemistry, {"lamp", watts(60), milliohms(20), true, false, {{limits, limits}}},
                                  amperes(charger));
        }
}

TEST_CASE("a fridge that was off catches up within its hour, however the time is cut") {
    const LowVoltageCutOff limits{volts(12.2), volts(12.7)};
    const Consumer fridge{"fridge", watts(48), {}, true, true, {{limits, limits}}};
    const auto day = [&](int intervals) {
        Scenario scenario = lone_scenario(usual_battery("agm", ampere_hours(40)), {fridge});
        scenario.output_path = milliohms(10);
        scenario.start_soc = percent(60);
        for (int i = 0; i < intervals; ++i)
            add_interval(scenario, hours(48.0 / intervals), {0.3}, 2 * i < intervals ? Current{} : amperes(20));
        return simulate(scenario);
    };
    const TripResult coarse = day(2);
    REQUIRE(coarse.served.front().off > hours(4));
    CHECK(coarse.served.front().owed == near(Energy{}, watt_hours(1e-3)));
    for (const int intervals : {48, 192}) {
        CAPTURE(intervals);
        const TripResult fine = day(intervals);
        CHECK(fine.end == near(coarse.end, Ratio{2e-5}));
        CHECK(fine.served.front().used == near(coarse.served.front().used, ampere_hours(0.001)));
        CHECK(fine.served.front().owed == near(Energy{}, watt_hours(1e-3)));
    }
}

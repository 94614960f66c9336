// The heater of a lithium battery, for any power, size and cold: against a thermostat in steps of seconds, and against itself
// in parts.

#include "voltwright/energy/battery_heater.hpp"
#include "dice.hpp"
#include "testing.hpp"
#include "voltwright/tables/tables.hpp"

using namespace voltwright;
using namespace voltwright::testing;

namespace {

struct Case {
    BatteryHeater heater;
    Temperature cells, around;
    Duration time;
};

/// Where the cells are after a time, and what the heater took.
struct Outcome {
    Temperature cells;
    Energy taken;
};

Outcome by_steps(const BatteryHeater& heater, Temperature cells, Temperature around, Duration time) {
    Outcome now{cells, {}};
    for (int steps = 0; time > seconds(1e-3); ++steps) {
        REQUIRE(steps < 10);
        const HeaterStep step = heater_step(heater, now.cells, around, time);
        REQUIRE(step.took > Duration{});
        REQUIRE(step.duty >= Ratio{0.0});
        REQUIRE(step.duty <= Ratio{1.0});
        now = {step.after, now.taken + step.duty * heater.power * step.took};
        time -= step.took;
    }
    return now;
}

/// A thermostat that looks every two seconds: on below `warms_to`.
Outcome by_thermostat(const Case& one) {
    constexpr Duration look = seconds(2);
    const BatteryHeater& heater = one.heater;
    const auto heat_capacity = heater.loss * heater.time_constant;
    Outcome now{one.cells, {}};
    for (Duration at{}; at < one.time; at += look) {
        const Power on = now.cells < heater.warms_to ? heater.power : Power{};
        now.cells += (on - heater.loss * (now.cells - one.around)) * look / heat_capacity;
        now.taken += on * look;
    }
    return now;
}

}  // namespace

TEST_CASE("a heater's steps are what a thermostat does, and the same in parts; a stronger one is never colder") {
    Dice dice(1453);
    const BatteryHeaterRow& row = built_in_tables().battery_heaters.front();
    for (int round = 0; round < 300; ++round) {
        const Charge bank = ampere_hours(dice.even(20, 400));
        const Duration lag = hours(dice.even(1, 12));
        const Case one{battery_heater(row, watts(dice.even(10, 400)), bank, lag), celsius(dice.even(-35, 20)),
                       celsius(dice.even(-35, 12)), minutes(dice.even(1, 600))};
        CAPTURE(round);
        const Outcome whole = by_steps(one.heater, one.cells, one.around, one.time);
        const Outcome real = by_thermostat(one);
        CHECK(whole.cells == near(real.cells, kelvins(0.3)));
        CHECK(whole.taken == near(real.taken, watt_hours(0.5) + 0.02 * real.taken));

        const Outcome half = by_steps(one.heater, one.cells, one.around, one.time / 2.0);
        const Outcome both = by_steps(one.heater, half.cells, one.around, one.time / 2.0);
        CHECK(both.cells == near(whole.cells, kelvins(1e-3)));
        CHECK(half.taken + both.taken == near(whole.taken, watt_hours(0.01)));

        const BatteryHeater stronger = battery_heater(row, 1.5 * one.heater.power, bank, lag);
        CHECK(by_steps(stronger, one.cells, one.around, one.time).cells >= whole.cells - kelvins(1e-6));
    }
}

#include "testing.hpp"

#include "voltwright/circuit/load.hpp"

/// The law of a load: the ZIP model's three parts. Expected values by hand from P = V·I and V = R·I.

namespace voltwright {

TEST_CASE("a load of each kind by its voltage: 60 W, 5 A and 2.4 ohm at 12 V draw 5 A, and follow it each in its way") {
    const LoadLaw power = watts(60), current = amperes(5), heater = ohms(2.4);
    for (const LoadLaw& load : {power, current, heater})
        CHECK(current_at(load, volts(12)) == near(amperes(5), amperes(1e-12)));
    CHECK(current_at(power, volts(10)) == near(amperes(6), amperes(1e-12)));
    CHECK(current_at(current, volts(10)) == near(amperes(5), amperes(1e-12)));
    CHECK(current_at(heater, volts(14.4)) == near(amperes(6), amperes(1e-12)));
}

TEST_CASE("the slope of a load is what its current gains for a volt more") {
    for (const LoadLaw& load : {LoadLaw{watts(60)}, LoadLaw{amperes(5)}, LoadLaw{ohms(2.4)}}) {
        CAPTURE(load.index());
        const Voltage step = volts(1e-4);
        const Conductance gained =
            (current_at(load, volts(12) + step) - current_at(load, volts(12) - step)) / (2.0 * step);
        const Conductance slope = drawn(load, volts(12)).slope;
        CHECK((slope - gained) * volts(1) == near(Current{}, amperes(1e-6)));
    }
}

TEST_CASE("between two voltages constant power draws most at the lower, a heater at the higher") {
    CHECK(most_current(watts(60), volts(10), volts(15)) == near(amperes(6), amperes(1e-12)));
    CHECK(most_current(ohms(2.4), volts(10), volts(14.4)) == near(amperes(6), amperes(1e-12)));
    CHECK(most_current(amperes(5), volts(10), volts(15)) == near(amperes(5), amperes(1e-12)));
}

TEST_CASE("through a cable: 55 W behind 0.2 ohm on 12 V draw 5 A, half of the time half of it") {
    // By hand: 12 V − 5 A · 0.2 ohm = 11 V, and 11 V · 5 A = 55 W.
    const LoadThroughCable through(watts(55), ohms(0.2));
    CHECK(through.at(volts(12)).current == near(amperes(5), amperes(1e-9)));
    CHECK(LoadThroughCable(watts(55), ohms(0.2), percent(50)).at(volts(12)).current ==
          near(amperes(2.5), amperes(1e-9)));
    CHECK(LoadThroughCable(ohms(2.2), ohms(0.2)).at(volts(12)).current == near(amperes(5), amperes(1e-9)));
    // More than V²/4R cannot come through: the most that does is V/2R.
    CHECK(LoadThroughCable(watts(1000), ohms(0.2)).at(volts(12)).current == near(amperes(30), amperes(1e-9)));
}

}  // namespace voltwright

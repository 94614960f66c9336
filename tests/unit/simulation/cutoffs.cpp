// Low-voltage cut-offs: at which voltage they act, where on the way down that is, and when an appliance comes back.

#include "voltwright/simulation/cutoffs.hpp"
#include "journeys.hpp"
#include "testing.hpp"

using namespace voltwright;
using namespace voltwright::testing;

namespace {

/// A fridge of 48 W behind 60 mΩ: at 10.4 V of its own it draws 4.615 A, which is 0.277 V of its cable.
Consumer fridge(std::optional<Voltage> reconnect) {
    const LowVoltageCutOff limits{volts(10.4), reconnect};
    return {"fridge", watts(48), milliohms(60), true, true, {{limits, limits}}};
}

CutOff cut_off_of(const Consumer& consumer) { return {0, *consumer.cut_offs[0], amperes(48.0 / 10.4), consumer.path}; }

OperatingPoint terminals(Current battery) { return {battery, battery, Current{}, volts(12.0), milliohms(20)}; }

/// At the beginning of an hour, rested at a level of the available charge.
struct Begun {
    Begun(Scenario made, Ratio level) : scenario(std::move(made)), setup(set_up(scenario, {})) {
        state = initial_state(setup);
        state.charge = kinetic_state_at(scenario.battery.kinetics, scenario.battery.whole, level);
        state.level = level;
        enter_interval(setup, state, 0);
        connect_loads(setup, state);
        locate_segment(state.circuit, state.charge, state.level);
    }
    Scenario scenario;
    Setup setup;
    State state = {};
};

Scenario an_hour(const Consumer& consumer, double duty) {
    Scenario scenario = lone_scenario(usual_battery("flooded", ampere_hours(60)), {consumer});
    add_interval(scenario, hours(1), {duty});
    return scenario;
}

}  // namespace

// By hand: 10.4 V + 4.615 A·60 mΩ = 10.677 V while it runs all the time; while it runs a quarter of it, three quarters of
// its current, over 20 mΩ inside the battery, are not in the terminals' mean: 0.069 V more; and nothing while it is charged.
TEST_CASE("a cut-off acts at its own voltage, seen at the battery's terminals: by hand") {
    const CutOff cut_off = cut_off_of(fridge({}));
    CHECK(acts_at(cut_off, {.duty = Ratio{1.0}}, terminals(amperes(-4))) == near(volts(10.6769), volts(1e-4)));
    CHECK(acts_at(cut_off, {.duty = Ratio{0.25}}, terminals(amperes(-4))) == near(volts(10.7462), volts(1e-4)));
    CHECK(acts_at(cut_off, {.duty = Ratio{0.25}}, terminals(amperes(4))) == near(volts(10.6769), volts(1e-4)));
}

// By hand: without a reconnect voltage 10.4 V + 4.615 A·80 mΩ + 20 mV.
TEST_CASE("an appliance reconnects at its voltage, or where it would run above its cut-off: by hand") {
    CHECK(reconnects_at(cut_off_of(fridge(volts(11.7))), terminals(Current{})) == volts(11.7));
    CHECK(reconnects_at(cut_off_of(fridge({})), terminals(Current{})) == near(volts(10.7892), volts(1e-4)));
    CHECK(reconnects_at(cut_off_of(fridge({})), terminals(amperes(10))) == near(volts(10.7892), volts(1e-4)));
}

TEST_CASE("on the way down a cut-off is found at the level at which it acts") {
    int found = 0;
    for (int percents = 1; percents <= 60; ++percents) {
        CAPTURE(percents);
        const Begun begun(an_hour(fridge(volts(11.7)), 0.5), percent(percents));
        const State& state = begun.state;
        const Segment& segment = state.circuit.segment;
        NextEvents next{{segment.low, segment.high, {}, {}}, {}, {}};
        narrow_to_cut_offs(begun.setup, state, next);
        CHECK(!next.reconnects);
        if (!next.acts) continue;
        ++found;
        const OperatingPoint there = flow_at(state.circuit, next.within.low);
        CHECK(next.within.low < state.level);
        CHECK(there.terminals ==
              near(acts_at(begun.setup.cut_offs[*next.acts], state.consumers[0], there), volts(1e-6)));
    }
    CHECK(found > 0);
}

TEST_CASE("an appliance that went off waits three minutes, and is due again above its reconnect voltage alone") {
    Begun begun(an_hour(fridge(volts(11.7)), 1.0), percent(95));
    State& state = begun.state;
    CHECK(!due_cut_off(begun.setup, state));
    act(state, begun.setup.cut_offs[0]);
    connect_loads(begun.setup, state);
    locate_segment(state.circuit, state.charge, state.level);
    CHECK(state.circuit.connections.running.empty());
    CHECK(state.waiting.size() == 1);
    CHECK(until_restart(begun.setup, state, hours(1)) == minutes(3));
    CHECK(until_restart(begun.setup, state, minutes(2)) == minutes(2));
    CHECK(!due_cut_off(begun.setup, state));
    state.now += minutes(3);
    CHECK(until_restart(begun.setup, state, hours(1)) == hours(1));
    const auto due = due_cut_off(begun.setup, state);
    REQUIRE(due);
    CHECK(due->reconnects);

    Begun low(an_hour(fridge(volts(11.7)), 1.0), percent(3));
    act(low.state, low.setup.cut_offs[0]);
    low.state.now += minutes(3);
    connect_loads(low.setup, low.state);
    locate_segment(low.state.circuit, low.state.charge, low.state.level);
    CHECK(!due_cut_off(low.setup, low.state));
}

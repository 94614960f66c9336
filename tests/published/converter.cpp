// Constant power behind a resistance. No publication with digits was found: these are closed forms worked out beside the
// program (computed), held here so that the root, the limit and the collapse stay right.

#include "voltwright/circuit/converter.hpp"
#include "testing.hpp"
#include "voltwright/sizing/choice.hpp"
#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

TEST_CASE("constant power through a resistance, worked figures, computed") {
    struct Case {
        double source, power, loop, voltage, current;
    };
    for (const Case& c :
         {Case{14.2, 400, 0.020, 13.612296062, 29.385196897}, Case{12.3, 400, 0.020, 11.610998077, 34.450096136},
          Case{12.3, 400, 0.050, 10.371670286, 38.566594289}, Case{12.0, 480, 0.075, 6.0, 80.0},
          Case{13.8, 60, 0.1, 13.350581369, 4.494186309}, Case{24.0, 600, 0.05, 22.677078252, 26.458434959}}) {
        CAPTURE(c.voltage);
        const auto input = converter_input(volts(c.source), ohms(c.loop), watts(c.power));
        REQUIRE(input);
        CHECK(input->voltage == near(volts(c.voltage), volts(1e-6)));
        CHECK(input->current == near(amperes(c.current), amperes(1e-5)));
    }
}

TEST_CASE("more than the line can bring has no answer, computed") {
    CHECK_FALSE(converter_input(12_V, ohms(0.0750001), 480_W));
    CHECK(converter_input(12_V, ohms(0.075), 480_W));
}

// A general circuit simulator's operating points of one such load at 14.2 V and 400 W (read off its own run).
TEST_CASE("the same load as a general circuit simulator solves it") {
    struct Case {
        double loop_mohm, voltage;
    };
    for (const Case& c : {Case{22.8, 13.5257295305669}, Case{100, 10.3264531609807}, Case{126, 7.20000000000014},
                          Case{126.0249, 7.10632455532092}}) {
        CAPTURE(c.loop_mohm);
        const auto input = converter_input(14.2_V, milliohms(c.loop_mohm), 400_W);
        REQUIRE(input);
        CHECK(input->voltage == near(volts(c.voltage), volts(1e-9)));
    }
    CHECK_FALSE(converter_input(14.2_V, milliohms(127), 400_W));
}

TEST_CASE("a charger held at its input limit takes that current and no more") {
    const auto input = converter_input(12.3_V, 50_mOhm, 400_W, 30_A);
    REQUIRE(input);
    CHECK(input->limited);
    CHECK(input->current == near(30_A, 1e-9_A));
    CHECK(input->voltage == near(10.8_V, 1e-9_V));  // 12.3 − 30 · 0.05
}

// Charger of 25 A at 14.4 V and 90 %, 400 W in; 5.8 m one way of cable alone at 20 °C (computed on the printed rows).
TEST_CASE("a 25 A charger on 5.8 m of each size, computed on printed rows") {
    struct Case {
        Gauge size;
        double loop_mohm, at_14_2, amperes_14_2, at_12_3, amperes_12_3;
    };
    CHECK(converter_power(25_A, 14.4_V, 90_percent).power == near(400_W, 1e-9_W));
    for (const Case& c : {Case{metric(10), 22.1560, 13.54574, 29.52957, 11.53146, 34.68772},
                          Case{metric(16), 14.0360, 13.79295, 29.00032, 11.82522, 33.82601},
                          Case{metric(25), 9.0480, 13.94038, 28.69362, 11.99836, 33.33789}}) {
        CAPTURE(c.loop_mohm);
        const ConductorResistance conductor =
            conductor_resistance(*find_conductor(built_in_tables(), c.size), Coating::plain, 20_degC);
        const Resistance loop = run_resistance(5.8_m, conductor, conductor, {}, {}).loop;
        CHECK(loop == near(milliohms(c.loop_mohm), milliohms(0.0001)));
        const auto usual = converter_input(14.2_V, loop, 400_W);
        const auto least = converter_input(12.3_V, loop, 400_W);
        REQUIRE(usual);
        REQUIRE(least);
        CHECK(usual->voltage == near(volts(c.at_14_2), volts(0.00001)));
        CHECK(usual->current == near(amperes(c.amperes_14_2), amperes(0.00001)));
        CHECK(least->voltage == near(volts(c.at_12_3), volts(0.00001)));
        CHECK(least->current == near(amperes(c.amperes_12_3), amperes(0.00001)));
    }
}

// The same with the conductor's own heat, 105 °C insulation, table ambient 30 °C: a fixed point worked to 1e-13 beside the
// program (computed). H4 has printed metric rows throughout.
TEST_CASE("a feed that heats itself settles where it was worked out to settle, computed") {
    struct Case {
        double r20_ohm_km, source, around, reference_current, grouping, temperature, loop_ohm, voltage, current;
    };
    for (const Case& c : {Case{2.099, 12.3, 60, 80, 1.0, 74.821321199, 0.029594209, 11.247530421, 35.563362360},
                          Case{1.325, 12.3, 60, 120, 1.0, 66.110418604, 0.018155258, 11.678145861, 34.252012669},
                          Case{2.099, 12.3, 60, 80, 0.7, 90.570026016, 0.031101190, 11.188057555, 35.752408140},
                          Case{1.21, 14.2, 40, 130, 1.0, 43.753674245, 0.015346288, 13.753682054, 29.083121047}}) {
        CAPTURE(c.temperature);
        // A one-row basis, so that the solution that choose_cable() finds is the one under test.
        ConductorRow conductor{};
        conductor.gauge = metric(16);
        conductor.area = square_millimetres(16);
        conductor.plain = conductor.tinned = ohms_per_kilometre(c.r20_ohm_km);
        conductor.resistance_at = celsius(20);
        conductor.coefficient = per_kelvin(0.00393);
        const AmpacityBasisRow basis{"test", "test", celsius(30), {}, {}, volts(0), {}};
        const AmpacityRow ampacity{"test", metric(16), celsius(105), amperes(c.reference_current), {}};
        const GroupingRow grouping{"test", 2, 2, ratio(c.grouping), {}};
        Tables tables = built_in_tables();
        tables.conductors = {&conductor, 1};
        tables.ampacity_bases = {&basis, 1};
        tables.ampacities = {&ampacity, 1};
        tables.groupings = {&grouping, 1};
        Rules rules;
        rules.ampacity_basis = "test";
        rules.sizes = {metric(16)};
        CableRun run{.name = std::string("feed"), .length = metres(5.8), .around = celsius(c.around)};
        run.joints.emplace();
        // Without a fuse, whose resistance the solution does not count.
        run.fused_at = {{place_named("starter"),
                         celsius(c.around),
                         volts(12.7),
                         volts(14.4),
                         {milliohms(3), milliohms(8), milliohms(5.5), {"a test", "given"}, true}}};
        run.given_fuses = {{{}, std::nullopt}};
        ConverterLoad charger{.output = 25_A};
        const Choice choice =
            choose_cable(run, charger, Supply{volts(c.source), volts(c.source), percent(30)}, rules, tables);
        const Candidate& candidate = choice.ladder.front();
        REQUIRE(candidate.drop);
        REQUIRE(candidate.temperature);
        CHECK(candidate.temperature->temperature == near(celsius(c.temperature), kelvins(1e-5)));
        CHECK(candidate.drop->resistance.loop == near(ohms(c.loop_ohm), ohms(1e-9)));
        CHECK(candidate.drop->far_end == near(volts(c.voltage), volts(1e-6)));
        CHECK(candidate.drop->current == near(amperes(c.current), amperes(1e-6)));
    }
}

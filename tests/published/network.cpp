// Networks of direct current with worked answers.
//
// The textbook is a public one on electric circuits, its volume on direct current, read with the output of a circuit
// simulator that it prints; where a digit is not in the book the line says computed. The d.c. distribution chapter is a
// textbook's, as solved in public collections: inputs read, answers reproduced or computed as marked. 0.4449 V is
// 0.44485 V rounded up, so its tolerance is a little over half a digit.
//
// The book's circuits are not all trees with one source. What was done to make them so, exactly in each case:
//   - a second source V behind R: the resistance R beside a constant current of −V/R (Norton);
//   - a bridge: the triangle of its three upper resistances turned into a star;
//   - a source below zero: the zero moved to the lowest rail;
//   - a load spread evenly along a section: half of it at each end, which leaves the voltages at both ends as they are.

#include "voltwright/circuit/network.hpp"
#include "testing.hpp"
#include "voltwright/units/literals.hpp"

#include <vector>

using namespace voltwright;
using namespace voltwright::literals;

namespace {

using Sections = std::vector<NetworkSection>;

constexpr std::optional<std::size_t> at_source{};

LoadLaw constant(Power power) { return {power}; }
LoadLaw constant(Current current) { return {current}; }
LoadLaw fixed(Resistance resistance) { return {resistance}; }

NetworkAnswer solved(Voltage source, const Sections& sections, Resistance internal = {}) {
    const auto answer = solve_network(source, sections, internal);
    REQUIRE(answer);
    return *answer;
}

/// One section from the source with these loads at its end.
Sections one_section(Resistance loop, std::vector<LoadLaw> loads) { return {{at_source, loop, std::move(loads)}}; }

/// A line of sections one after another, each with one load.
Sections line(const std::vector<std::pair<Resistance, LoadLaw>>& pieces) {
    Sections sections;
    for (const auto& [loop, load] : pieces)
        sections.push_back({sections.empty() ? at_source : sections.size() - 1, loop, {load}});
    return sections;
}

/// The textbook's two batteries: 28 V through 4 ohm and 7 V through 1 ohm, here −7 A beside 1 ohm, to one node.
std::vector<LoadLaw> seven_volts_behind_one_ohm() { return {constant(-7_A), fixed(ohms(1))}; }

}  // namespace

// ---- textbook networks, read ----------------------------------------------------------------------------------------

TEST_CASE("two batteries on one load, textbook of direct current, chapter on network analysis") {
    auto loads = seven_volts_behind_one_ohm();
    loads.push_back(fixed(ohms(2)));
    const NetworkAnswer answer = solved(28_V, one_section(ohms(4), loads));
    CHECK(answer.far_end[0] == near(8_V, 1e-9_V));
    CHECK(28_V - answer.far_end[0] == near(20_V, 1e-9_V));  // across R1
    CHECK(answer.source == near(5_A, 1e-9_A));              // through R1
    CHECK(current_at(loads[2], answer.far_end[0]) == near(4_A, 1e-9_A));
    CHECK(current_at(loads[0], answer.far_end[0]) + current_at(loads[1], answer.far_end[0]) ==
          near(1_A, 1e-9_A));  // into the 7 V battery: charging
}

TEST_CASE("the same without its load: Thevenin's 11.2 V and 0.8 ohm, Norton's 14 A, same textbook") {
    const auto with = [](LoadLaw load) {
        auto loads = seven_volts_behind_one_ohm();
        loads.push_back(load);
        return solved(28_V, one_section(ohms(4), loads)).far_end[0];
    };
    const Voltage open = with(constant(0_A));
    CHECK(open == near(11.2_V, 1e-9_V));
    CHECK((open - with(constant(1_A))) / 1_A == near(ohms(0.8), ohms(1e-9)));
    CHECK(with(fixed(ohms(1e-9))) / ohms(1e-9) == near(14_A, 1e-6_A));

    // Most power where the load equals 0.8 ohm: 39.2 W read, the two beside it computed.
    struct Case {
        double load, power, half_a_digit;
    };
    for (const Case& c : {Case{0.8, 39.2, 0.05}, Case{0.5, 37.11, 0.005}, Case{1.1, 38.22, 0.005}}) {
        CAPTURE(c.load);
        const Voltage voltage = with(fixed(ohms(c.load)));
        CHECK(voltage * voltage / ohms(c.load) == near(watts(c.power), watts(c.half_a_digit)));
    }
}

TEST_CASE("Millman's 8 V and 571.43 milliohm in parallel, same textbook") {
    const auto with = [](Current more) {
        auto loads = seven_volts_behind_one_ohm();
        loads.push_back(fixed(ohms(2)));
        loads.push_back(constant(more));
        return solved(28_V, one_section(ohms(4), loads)).far_end[0];
    };
    CHECK(with(0_A) == near(8_V, 1e-9_V));
    CHECK((with(0_A) - with(1_A)) / 1_A == near(milliohms(571.43), milliohms(0.005)));
}

TEST_CASE("an unbalanced bridge on 10 V, same textbook, the triangle of 12, 18 and 6 ohm as a star") {
    // 12·18/36, 12·6/36, 18·6/36.
    const NetworkAnswer answer =
        solved(10_V, {{at_source, ohms(6), {}}, {0, ohms(2), {fixed(ohms(18))}}, {0, ohms(3), {fixed(ohms(12))}}});
    const Voltage node_2 = answer.far_end[1], node_3 = answer.far_end[2];
    CHECK(10_V - node_2 == near(4.706_V, 0.0005_V));
    CHECK(10_V - node_3 == near(5.294_V, 0.0005_V));
    CHECK(node_2 - node_3 == near(0.5882_V, 0.00005_V));
    CHECK(node_2 == near(5.294_V, 0.0005_V));
    CHECK(node_3 == near(4.706_V, 0.0005_V));
}

TEST_CASE("an unbalanced bridge on 24 V, same textbook, the triangle of 150, 50 and 100 ohm as a star") {
    // 150·50/300, 150·100/300, 50·100/300.
    const NetworkAnswer answer = solved(
        24_V,
        {{at_source, ohms(25), {}}, {0, ohms(50), {fixed(ohms(300))}}, {0, ohms(50.0 / 3.0), {fixed(ohms(250))}}});
    CHECK(answer.far_end[1] == near(17.655_V, 0.0005_V));
    CHECK(answer.far_end[2] == near(19.310_V, 0.0005_V));
    CHECK(answer.source == near(amperes(0.136092), amperes(5e-7)));
    CHECK((24_V - answer.far_end[1]) / ohms(150) == near(amperes(0.042299), amperes(5e-7)));
}

TEST_CASE("the method of node voltages with 10 V above and 4 V below zero, same textbook") {
    // Zero at the −4 V rail: 14 V; what went to zero now goes to 4 V, a resistance beside −4 V/R; 1 ohm to the rail.
    const NetworkAnswer answer = solved(14_V, {{at_source, ohms(2), {fixed(ohms(4)), constant(-1_A)}},
                                               {0, ohms(2.5), {fixed(ohms(5)), constant(-0.8_A), fixed(ohms(1))}}});
    CHECK(answer.far_end[0] - 4_V == near(volts(3.809524), volts(5e-7)));
    CHECK(answer.far_end[1] - 4_V == near(volts(-1.547619), volts(5e-7)));
}

TEST_CASE("two parallel pairs in series on 24 V, same textbook") {
    const Resistance upper = 1.0 / (1.0 / ohms(100) + 1.0 / ohms(250));
    const auto left = fixed(ohms(350)), right = fixed(ohms(200));
    const NetworkAnswer answer = solved(24_V, one_section(upper, {left, right}));
    const Voltage lower = answer.far_end[0];
    CHECK(upper == near(ohms(71.429), ohms(0.0005)));
    CHECK(24_V / answer.source == near(ohms(198.70), ohms(0.005)));
    CHECK(answer.source == near(amperes(0.12078), amperes(5e-6)));
    CHECK(24_V - lower == near(8.627_V, 0.0005_V));
    CHECK(lower == near(15.37_V, 0.005_V));
    CHECK((24_V - lower) / ohms(100) == near(amperes(0.08627), amperes(5e-6)));
    CHECK((24_V - lower) / ohms(250) == near(amperes(0.03451), amperes(5e-6)));
    CHECK(current_at(left, lower) == near(amperes(0.04392), amperes(5e-6)));
    CHECK(current_at(right, lower) == near(amperes(0.07686), amperes(5e-6)));
}

TEST_CASE("Ohm's law without cable: 18 V and 36 V on 3 ohm, 10 V and 2 A, same textbook (432 W computed)") {
    struct Case {
        double source, ohm, current, power;
    };
    for (const Case& c : {Case{18, 3, 6, 108}, Case{36, 3, 12, 432}, Case{10, 5, 2, 20}}) {
        CAPTURE(c.source);
        // The same load said in each of the three ways.
        for (const LoadLaw& load : {fixed(ohms(c.ohm)), constant(amperes(c.current)), constant(watts(c.power))}) {
            const NetworkAnswer answer = solved(volts(c.source), one_section(ohms(0), {load}));
            CHECK(answer.source == near(amperes(c.current), 1e-9_A));
            CHECK(answer.far_end[0] * answer.current[0] == near(watts(c.power), 1e-9_W));
        }
    }
}

TEST_CASE("a load behind two wires of 15 ohm on 14 V, same textbook, at 20 degC and at 35 degC") {
    const auto load = fixed(ohms(250));
    const Voltage cold = solved(14_V, one_section(ohms(15 + 15), {load})).far_end[0];
    CHECK(cold == near(12.5_V, 1e-9_V));
    CHECK((14_V - cold) / 2.0 == near(0.75_V, 1e-9_V));
    const Voltage warm = solved(14_V, one_section(ohms(15.909 + 15.909), {load})).far_end[0];
    CHECK(warm == near(12.42_V, 0.005_V));
    CHECK((14_V - warm) / 2.0 == near(0.79_V, 0.005_V));
}

// ---- direct-current distributors ------------------------------------------------------------------------------------

TEST_CASE("a 500 V two-wire distributor with 100 A and 200 A, d.c. distribution chapter, read") {
    // 0.02 ohm/km a wire, two wires, 2 km and 2 km.
    const NetworkAnswer answer =
        solved(500_V, line({{ohms(2 * 2 * 0.02), constant(100_A)}, {ohms(2 * 2 * 0.02), constant(200_A)}}));
    CHECK(answer.far_end[0] == near(476_V, 1e-9_V));
    CHECK(answer.far_end[1] == near(460_V, 1e-9_V));
}

TEST_CASE("a 300 V distributor with four loads, d.c. distribution chapter, read") {
    // Loop of 0.02 ohm/km over 500, 500, 600 and 400 m.
    const NetworkAnswer answer = solved(300_V, line({{ohms(0.010), constant(100_A)},
                                                     {ohms(0.010), constant(150_A)},
                                                     {ohms(0.012), constant(200_A)},
                                                     {ohms(0.008), constant(50_A)}}));
    const double amps[] = {500, 400, 250, 50}, ends[] = {295.0, 291.0, 288.0, 287.6};
    for (std::size_t i = 0; i < 4; ++i) {
        CAPTURE(i);
        CHECK(answer.current[i] == near(amperes(amps[i]), 1e-9_A));
        CHECK(answer.far_end[i] == near(volts(ends[i]), 1e-9_V));
    }
}

TEST_CASE("a tapped trunk of 116.4 mm2 loses 10 V, d.c. distribution chapter, read") {
    // Currents of 220, 190, 150 and 50 A over 40, 60, 50 and 100 m; 1.78e-8 ohm metres. The voltage of the source is not
    // given and does not matter to constant currents.
    const auto trunk = [](double loop_per_100_m) {
        return solved(230_V, line({{ohms(0.40 * loop_per_100_m), constant(30_A)},
                                   {ohms(0.60 * loop_per_100_m), constant(40_A)},
                                   {ohms(0.50 * loop_per_100_m), constant(100_A)},
                                   {ohms(1.00 * loop_per_100_m), constant(50_A)}}));
    };
    const NetworkAnswer answer = trunk(0.030581);
    CHECK(answer.source == near(220_A, 1e-9_A));
    CHECK(230_V - answer.far_end[3] == near(10_V, 0.0002_V));
    const double by_area = 2 * 1.78e-8 * 100 / 116.4e-6;
    CHECK(230_V - trunk(by_area).far_end[3] == near(10_V, 0.005_V));
}

TEST_CASE("a return that differs from the way out, d.c. distribution chapter, inputs read, answer computed") {
    // 600 V; out 0.25 and back 0.03 ohm/km; 40 A at 2 km, 20 A at 6 km.
    const NetworkAnswer answer =
        solved(600_V, line({{ohms(2 * (0.25 + 0.03)), constant(40_A)}, {ohms(4 * (0.25 + 0.03)), constant(20_A)}}));
    CHECK(answer.far_end[0] == near(566.4_V, 1e-9_V));
    CHECK(answer.far_end[1] == near(544.0_V, 1e-9_V));
}

TEST_CASE("a distributor loaded in three places and all along, d.c. distribution chapter, inputs read, computed") {
    // 400 V; loop 0.0001 ohm/m; 50, 100 and 150 A at 200, 500 and 800 m; 0.5 A/m along all 900 m.
    const double ends_at[] = {200, 500, 800, 900}, taps[] = {50, 100, 150, 0};
    Sections sections;
    for (std::size_t i = 0; i < 4; ++i) {
        const double length = ends_at[i] - (i > 0 ? ends_at[i - 1] : 0);
        const LoadLaw half{amperes(0.5 * length / 2)};
        if (i > 0) sections.back().loads.push_back(half);  // the half at the source's own end drops nothing
        sections.push_back({i > 0 ? std::optional<std::size_t>(i - 1) : at_source,
                            ohms(length * 0.0001),
                            {constant(amperes(taps[i])), half}});
    }
    const NetworkAnswer answer = solved(400_V, sections);
    const double expected[] = {386.00, 370.25, 362.00, 361.75};
    for (std::size_t i = 0; i < 4; ++i) {
        CAPTURE(ends_at[i]);
        CHECK(answer.far_end[i] == near(volts(expected[i]), 1e-9_V));
    }
}

TEST_CASE("a control network's two trunks at 24 V, an industrial network manual's drop rule, read") {
    // 0.015 ohm/m, 0.005 ohm a joint. Left: 10 m and 1 joint carry 1.1 A, then 20 m and 2 joints 0.885 A; 0.4449 V.
    // Right: 30 m and 2 joints carry 0.85 A, then 10 m and 1 joint 0.5 A; 0.4685 V.
    const NetworkAnswer answer = solved(24_V, {{at_source, ohms(10 * 0.015 + 0.005), {constant(amperes(1.1 - 0.885))}},
                                               {0, ohms(20 * 0.015 + 2 * 0.005), {constant(0.885_A)}},
                                               {at_source, ohms(30 * 0.015 + 2 * 0.005), {constant(0.35_A)}},
                                               {2, ohms(10 * 0.015 + 0.005), {constant(0.5_A)}}});
    CHECK(answer.current[0] == near(1.1_A, 1e-9_A));
    CHECK(24_V - answer.far_end[1] == near(0.4449_V, 0.000051_V));
    CHECK(answer.current[2] == near(0.85_A, 1e-9_A));
    CHECK(24_V - answer.far_end[3] == near(0.4685_V, 0.00005_V));
}

TEST_CASE("a starter battery that charges a house battery under load, round numbers, computed") {
    // 14.2 V behind 6 mOhm, cable 14 mOhm; 12.6 V behind 4 mOhm as −3150 A beside 4 mOhm; 20 A at the house: 12.8 V.
    const auto cell = fixed(4_mOhm);
    const NetworkAnswer answer =
        solved(14.2_V, one_section(14_mOhm, {constant(-3150_A), cell, constant(20_A)}), 6_mOhm);
    CHECK(answer.far_end[0] == near(12.8_V, 1e-9_V));
    CHECK(answer.current[0] == near(70_A, 1e-7_A));
    CHECK(current_at(cell, answer.far_end[0]) - 3150_A == near(50_A, 1e-7_A));
    CHECK(answer.terminal == near(13.78_V, 1e-9_V));  // 14.2 − 70 · 0.006
}

// ---- constant power. No publication with digits was found: computed ---------------------------------------------------

TEST_CASE("one converter behind a resistance, through the network, computed from the closed form") {
    struct Case {
        double source, power, loop, voltage, current;
    };
    for (const Case& c :
         {Case{14.2, 400, 0.020, 13.612296062, 29.385196897}, Case{12.3, 400, 0.020, 11.610998077, 34.450096136},
          Case{12.3, 400, 0.050, 10.371670286, 38.566594289}, Case{13.8, 60, 0.1, 13.350581369, 4.494186309},
          Case{24.0, 600, 0.05, 22.677078252, 26.458434959}}) {
        CAPTURE(c.voltage);
        const NetworkAnswer answer = solved(volts(c.source), one_section(ohms(c.loop), {constant(watts(c.power))}));
        CHECK(answer.far_end[0] == near(volts(c.voltage), volts(5e-10)));
        CHECK(answer.current[0] == near(amperes(c.current), amperes(5e-10)));
    }
    // The two roots meet at 480 W, 6 V and 80 A, where a unit in the last place of the inputs is worth 1e-7 V.
    const NetworkAnswer edge = solved(12_V, one_section(ohms(0.075), {constant(480_W)}));
    CHECK(edge.far_end[0] == near(6_V, 2e-6_V));
    CHECK(edge.current[0] == near(80_A, 3e-5_A));
    CHECK_FALSE(solve_network(12_V, one_section(ohms(0.0750001), {constant(480_W)})));
}

TEST_CASE("99.99 % of the power that a line can bring, computed: a hundredth above half the source's voltage") {
    // P = (V²/4R)(1 − h²) has its upper root at V(1 + h)/2 exactly.
    struct Case {
        double source, loop, power, voltage;
    };
    for (const Case& c :
         {Case{12, 0.075, 479.952, 6.06}, Case{24, 0.5, 287.9712, 12.12}, Case{10, 0.25, 99.99, 5.05}}) {
        CAPTURE(c.source);
        const auto answer = solve_network(volts(c.source), one_section(ohms(c.loop), {constant(watts(c.power))}));
        REQUIRE(answer);
        // The figures are not exact in binary, and here a unit in the last place of the power is worth fifty of the volts.
        CHECK(answer->far_end[0] == near(volts(c.voltage), volts(1e-12 * c.source)));
    }
}

TEST_CASE("ladders of converters, computed beside the program by plain sweeps to 1e-15") {
    struct Case {
        double source;
        std::vector<double> loops, powers, voltages, currents;
        double source_current, loss;
    };
    for (const Case& c : {
             Case{12.0, {0.1}, {100}, {11.0990195136}, {9.0098048641}, 9.0098048641, 8.1176583690},
             Case{12.6,
                  {0.02, 0.03},
                  {120, 60},
                  {12.3062790386, 12.1582311875},
                  {9.7511197027, 4.9349283687},
                  14.6860480714,
                  5.0442056990},
             Case{12.6,
                  {0.01, 0.01, 0.01},
                  {40, 40, 40},
                  {12.5036129558, 12.4392166650, 12.4069767400},
                  {3.1990753506, 3.2156365692, 3.2239925034},
                  9.6387044232,
                  1.4476757320},
             Case{24.0,
                  {0.05, 0.05, 0.05, 0.05},
                  {50, 50, 50, 50},
                  {23.5687057400, 23.2434843389, 23.0258199617, 22.9167293510},
                  {},
                  8.6258852007,
                  7.0212448180},
         }) {
        CAPTURE(c.source);
        CAPTURE(c.loops.size());
        std::vector<std::pair<Resistance, LoadLaw>> pieces;
        Power loads{};
        for (std::size_t i = 0; i < c.loops.size(); ++i) {
            pieces.push_back({ohms(c.loops[i]), constant(watts(c.powers[i]))});
            loads += watts(c.powers[i]);
        }
        const NetworkAnswer answer = solved(volts(c.source), line(pieces));
        for (std::size_t i = 0; i < c.voltages.size(); ++i)
            CHECK(answer.far_end[i] == near(volts(c.voltages[i]), volts(1e-10)));
        for (std::size_t i = 0; i < c.currents.size(); ++i)
            CHECK(current_at(pieces[i].second, answer.far_end[i]) == near(amperes(c.currents[i]), amperes(1e-10)));
        CHECK(answer.source == near(amperes(c.source_current), amperes(1e-10)));
        CHECK(volts(c.source) * answer.source - loads == near(watts(c.loss), watts(1e-8)));
    }
}

TEST_CASE("a trunk with a constant current, a converter and a resistance, computed beside the program") {
    const auto resistance = fixed(ohms(2));
    const NetworkAnswer answer = solved(13.8_V, {{at_source, ohms(0.012), {constant(5_A)}},
                                                 {0, ohms(0.020), {constant(60_W)}},
                                                 {0, ohms(0.030), {resistance}}});
    const double voltages[] = {13.606304478080, 13.517530869081, 13.405226086778};
    const double currents[] = {16.141293493325, 4.438680449936, 6.702613043389};
    for (std::size_t i = 0; i < 3; ++i) {
        CAPTURE(i);
        CHECK(answer.far_end[i] == near(volts(voltages[i]), volts(1e-11)));
        CHECK(answer.current[i] == near(amperes(currents[i]), amperes(1e-11)));
    }
    const Power given = 13.8_V * answer.source;
    CHECK(given == near(watts(222.749850208), watts(1e-8)));
    CHECK(given - 5_A * answer.far_end[0] - 60_W - answer.far_end[2] * answer.current[2] ==
          near(watts(4.868284598667), watts(1e-9)));
}

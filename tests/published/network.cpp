// Radial networks: textbook distributors, and ladders with constant power.

#include "voltwright/circuit/network.hpp"
#include "testing.hpp"

#include <vector>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

using Sections = std::vector<NetworkSection>;

NetworkAnswer solved(double source, const Sections& sections) {
    const auto answer = solve_network(volts(source), sections);
    REQUIRE(answer);
    return *answer;
}

}  // namespace

TEST_CASE("a distributor fed at one end (textbook of d.c. distribution, read in a public text)") {
    // 500 V, 0.02 ohm/km a wire and two wires, 2 km and 2 km: 100 A at B, 200 A at C.
    const auto answer =
        solved(500, {{{}, ohms(2 * 2 * 0.02), {amperes(100)}}, {0, ohms(2 * 2 * 0.02), {amperes(200)}}});
    CHECK(in_volts(answer.far_end[0]) == near(476.0, 1e-9));
    CHECK(in_volts(answer.far_end[1]) == near(460.0, 1e-9));
}

TEST_CASE("a distributor with four loads (textbook, a public text and a question site, read)") {
    // 300 V; loop 0.02 ohm/km; 500, 500, 600 and 400 m; 100, 150, 200 and 50 A.
    const auto answer = solved(300, {{{}, ohms(0.010), {amperes(100)}},
                                     {0, ohms(0.010), {amperes(150)}},
                                     {1, ohms(0.012), {amperes(200)}},
                                     {2, ohms(0.008), {amperes(50)}}});
    const double printed[] = {295.0, 291.0, 288.0, 287.6};
    const double sections[] = {500, 400, 250, 50};
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(in_volts(answer.far_end[i]) == near(printed[i], 1e-9));
        CHECK(in_amperes(answer.current[i]) == near(sections[i], 1e-9));
    }
}

TEST_CASE("a return of another resistance than the way out (inputs read, result worked out by hand)") {
    // 600 V; out 0.25, back 0.03 ohm/km; 40 A at 2 km, 20 A at 6 km.
    const auto answer = solved(600, {{{}, ohms(2 * 0.28), {amperes(40)}}, {0, ohms(4 * 0.28), {amperes(20)}}});
    CHECK(in_volts(answer.far_end[0]) == near(566.4, 1e-9));
    CHECK(in_volts(answer.far_end[1]) == near(544.0, 1e-9));
}

TEST_CASE("the trunk of a control network, cable and a fixed resistance a joint (an industrial network manual, read)") {
    const auto loop = [](double metres_there, int joints) { return ohms(metres_there * 0.015 + joints * 0.005); };
    // Two currents, each through its own length: the manual adds their drops.
    const auto left = solved(24, {{{}, loop(20, 2), {amperes(0.885)}}, {{}, loop(10, 1), {amperes(1.1)}}});
    CHECK(24.0 - in_volts(left.far_end[0]) + 24.0 - in_volts(left.far_end[1]) == near(0.4449, 6e-5));
    const auto right = solved(24, {{{}, loop(10, 1), {amperes(0.5)}}, {{}, loop(30, 2), {amperes(0.85)}}});
    CHECK(24.0 - in_volts(right.far_end[0]) + 24.0 - in_volts(right.far_end[1]) == near(0.4685, 6e-5));
}

TEST_CASE("two batteries in parallel, by Millman's theorem (an open textbook, read)") {
    // 28 V through 4 ohm, 7 V through 1 ohm: 11.2 V behind 0.8 ohm; 2 ohm across them: 8 V and 4 A.
    const auto answer = solved(11.2, {{{}, ohms(0.8), {ohms(2)}}});
    CHECK(in_volts(answer.far_end[0]) == near(8.0, 1e-12));
    CHECK(in_amperes(answer.source) == near(4.0, 1e-12));
    // Starter battery 14.2 V behind 20 mOhm in all, house battery 12.6 V behind 4 mOhm, 20 A: 12.8 V (worked out by hand).
    const double source = (14.2 / 0.020 + 12.6 / 0.004) / (1 / 0.020 + 1 / 0.004);
    const auto house = solved(source, {{{}, ohms(1 / (1 / 0.020 + 1 / 0.004)), {amperes(20)}}});
    CHECK(in_volts(house.far_end[0]) == near(12.8, 1e-12));
}

TEST_CASE("ladders with constant power (worked out to ten digits by an independent sweep)") {
    const auto l1 = solved(12, {{{}, ohms(0.1), {watts(100)}}});
    CHECK(in_volts(l1.far_end[0]) == near(11.0990195136, 1e-9));
    CHECK(in_amperes(l1.source) == near(9.0098048641, 1e-9));

    const auto l2 = solved(12.6, {{{}, ohms(0.02), {watts(120)}}, {0, ohms(0.03), {watts(60)}}});
    CHECK(in_volts(l2.far_end[0]) == near(12.3062790386, 1e-9));
    CHECK(in_volts(l2.far_end[1]) == near(12.1582311875, 1e-9));
    CHECK(in_amperes(l2.source) == near(14.6860480714, 1e-9));

    const auto l3 =
        solved(12.6, {{{}, ohms(0.01), {watts(40)}}, {0, ohms(0.01), {watts(40)}}, {1, ohms(0.01), {watts(40)}}});
    const double volts_3[] = {12.5036129558, 12.4392166650, 12.4069767400};
    for (std::size_t i = 0; i < 3; ++i) CHECK(in_volts(l3.far_end[i]) == near(volts_3[i], 1e-9));
    CHECK(in_amperes(l3.source) == near(9.6387044232, 1e-9));

    const auto l4 = solved(24, {{{}, ohms(0.05), {watts(50)}},
                                {0, ohms(0.05), {watts(50)}},
                                {1, ohms(0.05), {watts(50)}},
                                {2, ohms(0.05), {watts(50)}}});
    const double volts_4[] = {23.5687057400, 23.2434843389, 23.0258199617, 22.9167293510};
    for (std::size_t i = 0; i < 4; ++i) CHECK(in_volts(l4.far_end[i]) == near(volts_4[i], 1e-9));
    CHECK(in_amperes(l4.source) == near(8.6258852007, 1e-9));

    const auto l5 =
        solved(13.8, {{{}, ohms(0.012), {amperes(5)}}, {0, ohms(0.020), {watts(60)}}, {0, ohms(0.030), {ohms(2)}}});
    const double volts_5[] = {13.606304478080, 13.517530869081, 13.405226086778};
    for (std::size_t i = 0; i < 3; ++i) CHECK(in_volts(l5.far_end[i]) == near(volts_5[i], 1e-11));
    CHECK(in_amperes(l5.current[0]) == near(16.141293493325, 1e-11));
    CHECK(in_amperes(l5.current[1]) == near(4.438680449936, 1e-11));
}

TEST_CASE("one load of constant power, to the edge and over it (closed form)") {
    CHECK(in_volts(solved(14.2, {{{}, ohms(0.020), {watts(400)}}}).far_end[0]) == near(13.612296062, 1e-9));
    CHECK(in_volts(solved(12.3, {{{}, ohms(0.050), {watts(400)}}}).far_end[0]) == near(10.371670286, 1e-9));
    // The most that can be brought: V²/(4·R) = 480 W at half the voltage.
    CHECK(in_volts(solved(12.0, {{{}, ohms(0.075), {watts(480)}}}).far_end[0]) == near(6.0, 1e-3));
    CHECK(in_volts(solved(12.0, {{{}, ohms(0.075), {watts(479.99)}}}).far_end[0]) == near(6.0273861, 1e-6));
    CHECK_FALSE(solve_network(volts(12.0), Sections{{{}, ohms(0.075), {watts(480.01)}}}));
    CHECK_FALSE(solve_network(volts(12.0), Sections{{{}, ohms(0.0750001), {watts(480)}}}));
    CHECK_FALSE(solve_network(volts(12.0), Sections{{{}, ohms(0.075), {watts(5000)}}}));
    CHECK_FALSE(solve_network(volts(12.0), Sections{{{}, ohms(0.05), {watts(300)}}, {0, ohms(0.05), {watts(300)}}}));
}

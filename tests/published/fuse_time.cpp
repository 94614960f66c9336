// How long fuses take, and what cables stand until then.

#include "voltwright/circuit/fuse_time.hpp"
#include "testing.hpp"
#include "voltwright/circuit/withstand.hpp"

#include <cmath>
#include <vector>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

const Tables& tables = built_in_tables();

double most(std::string_view family, double rating, double current) {
    const auto time = fuse_time(tables, family, amperes(rating), amperes(current));
    return time && time->at_most ? in_seconds(*time->at_most) : -1.0;
}
double least(std::string_view family, double rating, double current) {
    return in_seconds(fuse_time(tables, family, amperes(rating), amperes(current))->at_least);
}

}  // namespace

TEST_CASE("type E blade fuses keep the printed limits (DIN 72581-3, read in an extract)") {
    // The extract prints amperes for each rating: the exact product stands here where it rounds.
    for (const double rating : {20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0}) {
        CAPTURE(rating);
        CHECK(least("blade E", rating, 1.35 * rating) == near(60.0, 1e-6));
        CHECK(most("blade E", rating, 1.35 * rating) == near(1800.0, 1e-6));
        CHECK(least("blade E", rating, 2.0 * rating) == near(2.0, 1e-9));
        CHECK(most("blade E", rating, 2.0 * rating) == near(60.0, 1e-9));
        CHECK(least("blade E", rating, 3.5 * rating) == near(0.2, 1e-9));
        CHECK(most("blade E", rating, 3.5 * rating) == near(7.0, 1e-9));
        CHECK(most("blade E", rating, rating) == -1.0);
        CHECK(least("blade E", rating, rating) >= 359999.0);
    }
}

TEST_CASE("type C blade fuses keep their limits (ISO 8820-3, from memory)") {
    struct {
        double multiple, least, most;
    } const rows[] = {{1.35, 0.75, 600}, {1.6, 0.25, 50}, {2.0, 0.15, 5}, {3.5, 0.04, 0.5}, {6.0, 0.02, 0.1}};
    for (const auto& row : rows) {
        CAPTURE(row.multiple);
        CHECK(least("blade", 10, row.multiple * 10) == near(row.least, 1e-9));
        CHECK(most("blade", 10, row.multiple * 10) == near(row.most, 1e-9));
        CHECK(most("blade F", 5, row.multiple * 5) == near(row.most, 1e-9));
    }
    CHECK(most("blade", 10, 11) == -1.0);
}

TEST_CASE("between the limits and beyond them (worked out by hand on logarithmic paper)") {
    struct {
        double multiple, least, most;
    } const type_e[] = {{1.5, 24.1095, 723.285}, {1.6, 13.7925, 413.774}, {2.5, 0.7985, 25.4743},
                        {3.0, 0.3771, 12.6507},  {5, 0.0980, 3.4300},     {6, 0.0681, 2.3819},
                        {10, 0.0245, 0.8575}};
    for (const auto& row : type_e) {
        CAPTURE(row.multiple);
        CHECK(least("blade E", 50, row.multiple * 50) == near(row.least, row.least * 2e-3));
        CHECK(most("blade E", 50, row.multiple * 50) == near(row.most, row.most * 2e-4));
    }
    struct {
        double multiple, most;
    } const type_c[] = {{1.5, 128.503}, {1.8, 14.8298}, {2.5, 1.9963}, {3.0, 0.94282},
                        {5, 0.17236},   {8, 0.05625},   {10, 0.03600}, {20, 0.00900}};
    for (const auto& row : type_c) {
        CAPTURE(row.multiple);
        CHECK(most("blade", 20, row.multiple * 20) == near(row.most, row.most * 1e-4));
    }
}

TEST_CASE("the current that is surely cleared in 5 s") {
    // 3.5·√(7/5) times the rating for type E; exactly twice it for type C.
    CHECK(in_amperes(*surely_clears(tables, "blade E", amperes(50), seconds(5))) == near(207.07, 0.01));
    CHECK(in_amperes(*surely_clears(tables, "blade", amperes(10), seconds(5))) == near(20.0, 1e-9));
    CHECK_FALSE(surely_clears(tables, "post", amperes(50), seconds(5)));
    for (const double time : {0.01, 0.1, 0.4, 2.0, 5.0, 30.0, 300.0})
        for (const std::string_view family : {"blade", "blade E", "SF30", "SF51"}) {
            CAPTURE(family);
            CAPTURE(time);
            const Current clears = *surely_clears(tables, family, amperes(60), seconds(time));
            CHECK(most(family, 60, in_amperes(clears) * (1.0 + 1e-9)) == near(time, time * 1e-6));
        }
}

TEST_CASE("selectivity of pairs worked out by hand") {
    CHECK(is_selective(tables, {"blade E", amperes(50)}, {"blade", amperes(15)}, amperes(200)) == true);
    CHECK(most("blade", 15, 200) == near(0.02025, 1e-5));
    CHECK(least("blade E", 50, 200) == near(0.15313, 1e-5));
    CHECK(is_selective(tables, {"blade E", amperes(40)}, {"blade", amperes(30)}, amperes(120)) == true);
    CHECK(most("blade", 30, 120) == near(0.33559, 1e-4));
    CHECK(least("blade E", 40, 120) == near(0.37713, 1e-4));
    CHECK(is_selective(tables, {"blade", amperes(15)}, {"blade", amperes(15)}, amperes(100)) == false);
    CHECK_FALSE(is_selective(tables, {"post", amperes(50)}, {"blade", amperes(15)}, amperes(100)));
}

TEST_CASE("heating effect of pulses (a maker's fuse guide, read)") {
    const auto value = [](JouleIntegral x) { return x / ampere_squared_seconds(1.0); };
    // A compressor that starts with 30 A, falling to 5 A within half a second.
    CHECK(double(value(ramp_let_through(amperes(30), amperes(5), seconds(0.5)))) == near(179.17, 0.01));
    CHECK(double(value(ramp_let_through(amperes(20), amperes(20), seconds(0.1)))) == near(40.0, 1e-9));
    CHECK(double(value(ramp_let_through(amperes(30), amperes(0), seconds(0.3)))) == near(90.0, 1e-9));
    CHECK(double(value(half_sine_let_through(amperes(20), seconds(0.1)))) == near(20.0, 1e-9));
    CHECK(double(value(exponential_let_through(amperes(20), seconds(0.1)))) == near(20.0, 1e-9));
}

TEST_CASE("one feed all the way (worked out by hand: 8 AWG, a 50 A type E fuse, 426.91 A at the far end)") {
    CHECK(most("blade E", 50, 426.91) == near(1.17625, 1e-4));
    const auto through = let_through(tables, "blade E", amperes(50), amperes(426.91));
    REQUIRE(through);
    CHECK(double(*through / ampere_squared_seconds(1.0)) == near(214375.0, 20.0));
}

TEST_CASE("k of copper as the standards print it (BS 7671 and IEC 60364-5-54, read in a cable-engineering page)") {
    struct {
        double start, limit, k;
    } const rows[] = {{70, 160, 115}, {70, 140, 103}, {90, 160, 100}, {90, 140, 86},
                      {90, 250, 143}, {60, 200, 141}, {85, 220, 134}, {180, 350, 132}};
    for (const auto& row : rows) {
        CAPTURE(row.start);
        CAPTURE(row.limit);
        CHECK(in_k(copper_k_squared(celsius(row.start), celsius(row.limit))) == near(row.k, 0.0055 * row.k));
    }
    // Worked out by hand.
    struct {
        double start, limit, k;
    } const more[] = {{30, 160, 142.90},  {30, 250, 175.83},  {60, 160, 122.19},  {105, 160, 87.57},
                      {105, 200, 112.26}, {105, 250, 134.78}, {125, 250, 123.46}, {20, 1083, 289.79}};
    for (const auto& row : more) {
        CAPTURE(row.start);
        CHECK(in_k(copper_k_squared(celsius(row.start), celsius(row.limit))) == near(row.k, 0.006));
    }
    CHECK(in_k(copper_k_squared(celsius(160), celsius(160))) == 0.0);
}

TEST_CASE("ICEA P-32-382 says the same in its own units (read in a cable maker's sheet)") {
    // I = f·A/√t with A in circular mils: 0.07195 from 90 to 250 degC, 0.06773 from 105.
    const double mils = 1e6 * circular_mils(1.0) / square_millimetres(1.0) * 1e-6;
    CHECK(in_k(copper_k_squared(celsius(90), celsius(250))) * mils == near(0.07195, 0.01 * 0.07195));
    CHECK(in_k(copper_k_squared(celsius(105), celsius(250))) * mils == near(0.06773, 0.01 * 0.06773));
}

TEST_CASE("adiabatic cases worked out by hand: how long a conductor stands a current") {
    struct {
        double area, k, amps, seconds;
    } const rows[] = {{2.5, 115, 500, 0.330625}, {6, 115, 800, 0.743906},   {10, 115, 1000, 1.322500},
                      {16, 115, 1500, 1.504711}, {16, 143, 1500, 2.326642}, {8.3656, 143, 1200, 0.9938},
                      {25, 143, 3000, 1.420069}};
    for (const auto& row : rows) {
        CAPTURE(row.area);
        const bool thermoplastic = row.k == 115;
        const Temperature start = celsius(thermoplastic ? 70 : 90), limit = celsius(thermoplastic ? 160 : 250);
        const auto judged = [&](double time) {
            return withstand(square_millimetres(row.area), start, limit, amperes(row.amps), seconds(time)).holds();
        };
        CHECK(judged(0.997 * row.seconds));
        CHECK_FALSE(judged(1.003 * row.seconds));
    }
    // The least area for a current and a time: S = I·√t/k.
    struct {
        double amps, seconds, k, area;
    } const least_areas[] = {
        {1000, 0.1, 115, 2.7498}, {1500, 0.5, 143, 7.4172}, {3000, 0.1, 143, 6.6341}, {800, 5, 115, 15.5553}};
    for (const auto& row : least_areas) {
        CAPTURE(row.amps);
        const bool thermoplastic = row.k == 115;
        const Temperature start = celsius(thermoplastic ? 70 : 90), limit = celsius(thermoplastic ? 160 : 250);
        const auto judged = [&](double area) {
            return withstand(square_millimetres(area), start, limit, amperes(row.amps), seconds(row.seconds)).holds();
        };
        CHECK(judged(1.002 * row.area));
        CHECK_FALSE(judged(0.998 * row.area));
    }
}

TEST_CASE("copper melts where Onderdonk's equation says so") {
    // Amperes that melt a wire from 25 degC in one second, worked out by hand from 33·(I/A)²·t = lg((1083 − T)/(234 + T) + 1),
    // A in circular mils; the equation itself as two worked examples of a public forum use it.
    struct {
        int gauge;
        double mils, amps;
    } const rows[] = {{18, 1624.3, 237.6}, {16, 2582.7, 377.8}, {14, 4106.7, 600.8},
                      {12, 6529.9, 955.3}, {10, 10383, 1519.0}, {8, 16510, 2415.3},
                      {6, 26251, 3840.5},  {4, 41741, 6106.6},  {2, 66371, 9709.9}};
    for (const auto& row : rows) {
        CAPTURE(row.gauge);
        const Withstand melts =
            withstand(circular_mils(row.mils), celsius(25), celsius(1083), amperes(row.amps), seconds(1));
        CHECK(double(melts.let_through / melts.allowed) == near(1.0, 0.02));
    }
}

TEST_CASE("times only fall with the current, without a gap at the last printed point") {
    for (const std::string_view family : {"blade", "blade E", "SF30", "SF51"}) {
        CAPTURE(family);
        double before_most = 1e12, before_least = 1e12;
        for (double multiple = 1.36; multiple < 60.0; multiple *= 1.003) {
            const double now_most = most(family, 40, 40 * multiple), now_least = least(family, 40, 40 * multiple);
            if (now_most < 0.0) continue;
            CHECK(now_most <= before_most * (1.0 + 1e-12));
            CHECK(now_least <= before_least * (1.0 + 1e-12));
            if (before_most < 1e11) CHECK(now_most > 0.93 * before_most);
            CHECK(now_least <= now_most);
            before_most = now_most;
            before_least = now_least;
        }
    }
}

// How a current that comes, goes or ends heats a cable: duty tables, ratings for minutes, time constants, drops of thick
// cable at three temperatures.

#include "testing.hpp"

#include "voltwright/circuit/conductor.hpp"
#include "voltwright/circuit/heating.hpp"
#include "voltwright/circuit/withstand.hpp"
#include "voltwright/sizing/ampacity.hpp"
#include "voltwright/sizing/protection.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/literals.hpp"

#include <cmath>
#include <limits>

using namespace voltwright;
using namespace voltwright::literals;

namespace {

/// A size of 33 CFR 183.425 table 5 in free air of its own reference.
HeatedConductor of_table_5(Gauge size, Temperature insulation) {
    const ConductorRow row = conductor_of(built_in_tables(), size).value();
    const Temperature reference = find_ampacity_basis(built_in_tables(), "us-33-cfr-183")->ambient;
    return heated_conductor(
        row.area, insulation, reference,
        ampacity(built_in_tables(), "us-33-cfr-183", row, insulation, reference, 1, nominal_voltage));
}

/// Of copper that gives off no heat.
HeatedConductor adiabatic(Area area) { return {area, 90_degC, 30_degC, Current{}, 30_degC}; }

constexpr Duration never = seconds(1e9);

}  // namespace

// ---- duty -----------------------------------------------------------------------------------------------------------

// IS 9857, welding cable, lasting current and that at a duty, as a cable maker prints them (read). Left out: three cells
// that are plain misprints (16 mm2 at 100 %, 25 mm2 of 90 degC at 85 %, 95 mm2 of 60 degC at 60 %).
TEST_CASE("short time: duty cells of welding cable, IS 9857 (read in a maker's table)") {
    struct {
        double area, lasting, at_85, at_60, at_30, at_20;  // A; 0: not printed
    } const printed[] = {
        {25, 103, 112, 133, 188, 230}, {35, 129, 140, 166, 236, 288}, {50, 167, 181, 215, 305, 373},
        {70, 205, 222, 264, 374, 458}, {95, 251, 272, 0, 458, 561},   {16, 117, 127, 151, 0, 0},
        {25, 157, 0, 203, 0, 0},       {35, 196, 213, 253, 0, 0},     {50, 248, 269, 320, 0, 0},
        {70, 309, 335, 399, 0, 0},     {95, 374, 406, 482, 0, 0},
    };
    int cells = 0;
    for (const auto& row : printed) {
        const struct {
            double duty, amps;
        } each[] = {{0.85, row.at_85}, {0.6, row.at_60}, {0.3, row.at_30}, {0.2, row.at_20}};
        for (const auto& cell : each) {
            if (cell.amps == 0) continue;
            CAPTURE(row.area);
            CAPTURE(cell.duty);
            ++cells;
            // The cycles of a hand that welds are short against the minutes of such cables.
            const Ratio factor = short_time_factor(400_s, seconds(5 * cell.duty), 5_s);
            CHECK(double(factor) * row.lasting == near(cell.amps, 0.006 * cell.amps));
        }
    }
    CHECK(cells == 30);
}

// Lasting, 5 min, 1 min and 10 s currents of four battery switches, a maker's brochure (read). A switch is no cable: what
// they agree in is the order of the time constant, and that a longer time never allows more.
TEST_CASE(
    "short time: battery switches' ratings for minutes lie where time constants of 205 to 720 s put them (read)") {
    const struct {
        double lasting, five_minutes, one_minute, ten_seconds;
    } switches[] = {{300, 500, 775, 1500}, {350, 600, 1000, 2000}, {500, 700, 1150, 2750}, {600, 900, 1325, 2750}};
    for (const auto& one : switches) {
        CAPTURE(one.lasting);
        const auto between = [&](double printed, Duration lasts, Duration least, Duration most) {
            CHECK(double(short_time_factor(least, lasts, never)) * one.lasting <= printed * 1.01);
            CHECK(double(short_time_factor(most, lasts, never)) * one.lasting >= printed * 0.99);
        };
        between(one.five_minutes, 300_s, 415_s, 725_s);
        between(one.one_minute, 60_s, 255_s, 465_s);
        between(one.ten_seconds, 10_s, 200_s, 325_s);
    }
}

// ---- time constants -------------------------------------------------------------------------------------------------

// Worked out apart from this program, from 33 CFR 183.425 table 5 (105 degC, 30 degC around) with 385 J/(kg·K) and the
// resistance of stranded copper; IEC 60364-5-54's constants of solid copper make it 2 to 4 % more.
TEST_CASE("short time: time constants of 105 degC cable, copper alone (worked out apart from other constants)") {
    const struct {
        Gauge size;
        double tau, half_minute, minute, five_minutes;  // s, then the factor of a current from cold
    } rows[] = {
        {awg(14), 39, 1.36, 1.13, 1.00},  {awg(12), 59, 1.58, 1.25, 1.00}, {awg(10), 84, 1.83, 1.40, 1.01},
        {awg(8), 120, 2.12, 1.59, 1.04},  {awg(6), 134, 2.23, 1.67, 1.06}, {awg(4), 191, 2.62, 1.93, 1.12},
        {awg(2), 280, 3.14, 2.28, 1.23},  {awg(0), 385, 3.65, 2.63, 1.36}, {awg(-1), 457, 3.97, 2.85, 1.44},
        {awg(-3), 635, 4.66, 3.33, 1.63},
    };
    for (const auto& row : rows) {
        CAPTURE(show(row.size));
        const auto tau = time_constant(of_table_5(row.size, 105_degC));
        REQUIRE(tau);
        CHECK(in_seconds(*tau) == near(row.tau, 0.04 * row.tau));
        CHECK(double(short_time_factor(*tau, 30_s, never)) == near(row.half_minute, 0.025 * row.half_minute));
        CHECK(double(short_time_factor(*tau, 60_s, never)) == near(row.minute, 0.025 * row.minute));
        CHECK(double(short_time_factor(*tau, 300_s, never)) == near(row.five_minutes, 0.025 * row.five_minutes));
    }
}

// 33 CFR 183.425 table 5, 105 degC (read): what the regulation calls an ampacity is where the insulation's rating is
// reached and not passed.
TEST_CASE("heating: with the current of 33 CFR 183.425 table 5 a cable settles at its insulation's rating") {
    const struct {
        Gauge size;
        double amps;
    } rows[] = {{awg(14), 35}, {awg(8), 80}, {awg(2), 210}, {awg(0), 285}, {awg(-3), 445}};
    for (const auto& row : rows) {
        CAPTURE(show(row.size));
        const HeatedConductor cable = of_table_5(row.size, 105_degC);
        CHECK(settled(cable, amperes(row.amps)) == near(105_degC, 0.01_K));
        CHECK(heated(cable, 30_degC, amperes(row.amps), hours(12)) == near(105_degC, 0.1_K));
        CHECK(heated(cable, 30_degC, amperes(row.amps), hours(12)) <= celsius(105.0001));
    }
}

// ---- no heat given off ----------------------------------------------------------------------------------------------

// k of BS 7671 and IEC 60364-5-54 (read in a cable-engineering page): with k amperes on 1 mm2 the limit is reached in one
// second. k is printed to 1 A: half of that is 0.8 K here.
TEST_CASE("heating: without heat given off it is the k of the installation standards (read)") {
    const struct {
        double start, limit, k;
    } rows[] = {{70, 160, 115}, {70, 140, 103}, {90, 160, 100}, {90, 140, 86},
                {90, 250, 143}, {60, 200, 141}, {85, 220, 134}, {180, 350, 132}};
    for (const auto& row : rows) {
        CAPTURE(row.k);
        CHECK(heated(adiabatic(square_millimetres(1)), celsius(row.start), amperes(row.k), 1_s) ==
              near(celsius(row.limit), kelvins((row.limit - row.start) / row.k + 0.3)));
    }
}

// IEC 60949: with heat given off a conductor may carry eps = sqrt(1 + X·sqrt(t/S) + Y·t/S) times as much, X 0.29 and Y 0.06
// for copper in polyvinyl chloride, t in s, S in mm2 (from memory). It counts what the insulation takes up, which one body
// of copper does not: what is allowed here must lie between none given off and that.
TEST_CASE("heating: heat given off allows more than none, and less than IEC 60949 does (its constants from memory)") {
    for (const Gauge size : {awg(12), awg(6), awg(2), awg(0), awg(-3)})
        for (const double t : {6.0, 10.0, 30.0, 60.0}) {
            CAPTURE(show(size));
            CAPTURE(t);
            const HeatedConductor cable = of_table_5(size, 105_degC);
            const double area = in_square_millimetres(cable.area);
            const double eps = std::sqrt(1.0 + 0.29 * std::sqrt(t / area) + 0.06 * t / area);
            // k of 70 to 160 degC is printed as 115 (BS 7671, read).
            const Current none = amperes(115.0 * area / std::sqrt(t));
            CHECK(heated(cable, 70_degC, none, seconds(t)) < celsius(160.5));
            CHECK(heated(cable, 70_degC, eps * none, seconds(t)) > celsius(159.5));
        }
}

// ---- the drop of thick cable ----------------------------------------------------------------------------------------

// BS 638 welding cable, V for 100 A and 10 m at 20, 60 and 85 degC: a handbook's appendix (read), printed to 0.01 V.
TEST_CASE("drop: welding cable of BS 638 at 20, 60 and 85 degC (read in a handbook's appendix)") {
    const struct {
        double area, cold, warm, hot;
    } rows[] = {{16, 1.24, 1.43, 1.56}, {25, 0.80, 0.92, 1.00}, {35, 0.57, 0.65, 0.71}, {50, 0.39, 0.46, 0.49},
                {70, 0.28, 0.32, 0.35}, {95, 0.21, 0.24, 0.26}, {120, 0.16, 0.19, 0.21}};
    for (const auto& row : rows) {
        CAPTURE(row.area);
        const ConductorRow conductor = conductor_of(built_in_tables(), metric(row.area)).value();
        const auto drop = [&](Temperature at) {
            return in_volts(100_A * (resistance_per_length(conductor, Coating::tinned, at) * 10_m));
        };
        CHECK(drop(20_degC) == near(row.cold, 0.0101));
        CHECK(drop(60_degC) == near(row.warm, 0.0101));
        CHECK(drop(85_degC) == near(row.hot, 0.0101));
    }
}

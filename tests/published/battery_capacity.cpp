#include "testing.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/energy/charging_efficiency.hpp"
#include "voltwright/tables/tables.hpp"

#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <array>
#include <string_view>

namespace voltwright {

namespace {

double lead_at(double fahrenheits) {
    return in_ratio(capacity_factor(built_in_tables(), "flooded", fahrenheit(fahrenheits)));
}

}  // namespace

// IEEE Std 485, Table 1, cell size correction factors, reference 77 degF (25 degC). 40 to 120 degF read in a public
// battery-testing program that does not name the standard, 25 to 35 degF recalled. The capacity is 100/factor,
// recomputed; no more than all of it is planned with, so a warm battery has 100 %.
TEST_CASE("cell size factors: IEEE 485 by temperature") {
    struct Row {
        double fahrenheit, celsius, factor, capacity;
    };
    for (const Row& row : {Row{25, -3.9, 1.520, 65.8},   Row{30, -1.1, 1.430, 69.9},   Row{35, 1.7, 1.350, 74.1},
                           Row{40, 4.4, 1.300, 76.9},    Row{45, 7.2, 1.250, 80.0},    Row{50, 10.0, 1.190, 84.0},
                           Row{55, 12.8, 1.150, 87.0},   Row{60, 15.6, 1.110, 90.1},   Row{65, 18.3, 1.080, 92.6},
                           Row{68, 20.0, 1.056, 94.7},   Row{70, 21.1, 1.040, 96.2},   Row{75, 23.9, 1.011, 98.9},
                           Row{77, 25.0, 1.000, 100.0},  Row{80, 26.7, 0.980, 102.0},  Row{85, 29.4, 0.960, 104.2},
                           Row{90, 32.2, 0.940, 106.4},  Row{95, 35.0, 0.930, 107.5},  Row{100, 37.8, 0.910, 109.9},
                           Row{105, 40.6, 0.890, 112.4}, Row{110, 43.3, 0.880, 113.6}, Row{115, 46.1, 0.870, 114.9},
                           Row{120, 48.9, 0.860, 116.3}}) {
        CAPTURE(row.fahrenheit);
        const CellSizeFactorRow* found = nullptr;
        for (const CellSizeFactorRow& each : built_in_tables().cell_size_factors)
            if (each.group == "flooded" && each.temperature == near(celsius(row.celsius), kelvins(0.0501)))
                found = &each;
        REQUIRE(found);
        CHECK(in_ratio(found->factor) == near(row.factor, 0.0005));
        CHECK(100.0 * lead_at(row.fahrenheit) == near(std::min(row.capacity, 100.0), 0.05));
    }
}

// 57 degF between the rows of 55 and 60 degF, in a straight line: 1.134 (recomputed; that program interpolates so,
// read).
TEST_CASE("cell size factors: IEEE 485 between two rows") { CHECK(1.0 / lead_at(57) == near(1.134, 0.0005)); }

// Winter multipliers of stand-alone solar worksheets, reference 80 degF (read in two reprints): another table than
// IEEE 485, alike within 0.035, the most at 30 degF. At 20 degF it is what the table of the factors has.
TEST_CASE("cell size factors: the winter multipliers of solar worksheets are alike") {
    struct Row {
        double fahrenheit, multiplier, within;
    };
    for (const Row& row : {Row{80, 1.00, 0.005}, Row{70, 1.04, 0.005}, Row{60, 1.11, 0.005}, Row{50, 1.19, 0.005},
                           Row{40, 1.30, 0.005}, Row{30, 1.40, 0.035}, Row{20, 1.59, 0.005}}) {
        CAPTURE(row.fahrenheit);
        CHECK(1.0 / lead_at(row.fahrenheit) == near(row.multiplier, row.within));
    }
}

// At 0 degC, between the rows of 30 and 35 degF: 72 % (recomputed apart from this code); the rule of thumb of 80 % is
// kinder.
TEST_CASE("cell size factors: 72 percent at freezing") { CHECK(100.0 * lead_at(32) == near(72, 0.5)); }

// Below the table of IEEE 485. Flooded: a maker's page sizes by 1.65 at -10 degC, 61 %; a traction battery has 40 % at
// -17.8 degC and the 6-hour rate (US Army TM 10-6140-200-14); both read. Sealed: a maker's table of discharges of more than an
// hour, a data sheet's 74 % at -10 degC (both read), and a trade page's 45 % at -18 degC (read weakly).
TEST_CASE("lead in frost has what makers, an army manual and a trade page leave it (read)") {
    const auto left = [](std::string_view chemistry, double at) {
        return in_percent(capacity_factor(built_in_tables(), chemistry, celsius(at)));
    };
    CHECK(left("flooded", -10) == near(61, 0.5));
    CHECK(left("flooded", -17.78) == near(40, 0.5));
    CHECK(left("flooded", -30) == near(40, 0.5));
    struct Row {
        double celsius, percent;
    };
    for (const Row& row : {Row{20, 99}, Row{15, 94}, Row{10, 90}, Row{5, 88}, Row{0, 84}, Row{-10, 74}, Row{-18, 45}})
        for (const std::string_view sealed : {"agm", "gel"}) {
            CAPTURE(sealed);
            CAPTURE(row.celsius);
            CHECK(left(sealed, row.celsius) == near(row.percent, 0.5));
        }
    // Another maker of sealed lead: 0.6 % for each degree at rates of 10 to 20 h, 85 % at 0 degC (read).
    CHECK(left("agm", 0) == near(85, 2));
}

// What a maker's page (80 and 70 % at 0 and -20 degC, read), a trade page (70 to 80 % at 0 degC, read weakly) and sheets of
// the class (recalled: 100, 70 to 85 and 55 to 75 % at 25, -10 and -20 degC) leave of lithium iron phosphate. Sheets recalled
// at 85 to 95 % for 0 degC are kinder than what was read, and do not count.
TEST_CASE("lithium iron phosphate: capacity left in the cold lies within what sheets give") {
    struct Row {
        double celsius, low, high;
    };
    for (const Row& row : {Row{25, 100, 100}, Row{0, 70, 80}, Row{-10, 70, 85}, Row{-20, 55, 75}}) {
        CAPTURE(row.celsius);
        const double share = in_percent(capacity_factor(built_in_tables(), "lfp", celsius(row.celsius)));
        CHECK(share >= row.low);
        CHECK(share <= row.high);
    }
}

// Exponents and self-discharge by chemistry: ranges read on weak pages, for lithium recalled.
TEST_CASE("chemistries: Peukert exponent and self-discharge lie within what is printed") {
    struct Row {
        std::string_view chemistry;
        double low, high;            // exponent
        double idle_low, idle_high;  // % a month
    };
    for (const Row& row : {Row{"flooded", 1.2, 1.6, 0, 8}, Row{"gel", 1.1, 1.25, 3.5, 4.5},
                           Row{"agm", 1.05, 1.15, 3.5, 4.5}, Row{"lfp", 1.00, 1.05, 2, 3}}) {
        CAPTURE(row.chemistry);
        const ChemistryRow* found = find_chemistry(built_in_tables(), row.chemistry);
        REQUIRE(found);
        CHECK(in_ratio(found->exponent) >= row.low);
        CHECK(in_ratio(found->exponent) <= row.high);
        CHECK(in_percent(found->self_discharge) >= row.idle_low);
        CHECK(in_percent(found->self_discharge) <= row.idle_high + 1e-9);
    }
}

// Copetti, Lorenzo, Chenlo 1993, charge efficiency: the equation read in a weak copy; the cells worked out from it
// apart from this code, no publication.
TEST_CASE("charge efficiency: Copetti's by state of charge and current, recomputed") {
    constexpr std::array rates = {0.5, 1.0, 2.0};
    struct Row {
        double soc;
        std::array<double, 3> efficiency;
    };
    for (const Row& row : {Row{0.50, {0.9999, 0.9988, 0.9828}}, Row{0.70, {0.9973, 0.9819, 0.9127}},
                           Row{0.80, {0.9807, 0.9311, 0.8033}}, Row{0.90, {0.8611, 0.7375, 0.5564}},
                           Row{0.95, {0.6274, 0.4876, 0.3340}}, Row{0.99, {0.1792, 0.1252, 0.0781}}})
        for (std::size_t i = 0; i < rates.size(); ++i) {
            CAPTURE(row.soc);
            CAPTURE(rates[i]);
            CHECK(in_ratio(copetti_charge_efficiency(row.soc, rates[i])) == near(row.efficiency[i], 5e-5));
        }
}

// The charge stored over the charge put in, at the 10-hour current: recomputed as above. Against a measured battery
// (Stevens and Corey, Sandia, recalled): 91 % from empty to 84 %, 55 % from 79 to 84 %: the formula is kinder.
TEST_CASE("charge efficiency: Copetti's mean over a charge, recomputed") {
    const auto mean = [](double from, double to) {
        const auto put_in = [](double soc) { return 1.0 / in_ratio(copetti_charge_efficiency(soc, 1.0)); };
        return (to - from) / boost::math::quadrature::gauss_kronrod<double, 31>::integrate(put_in, from, to, 8, 1e-10);
    };
    CHECK(mean(0.0, 0.84) == near(0.9890, 5e-5));
    CHECK(mean(0.79, 0.84) == near(0.9139, 5e-5));
    CHECK(mean(0.90, 0.98) == near(0.4831, 5e-5));
    CHECK(mean(0.0, 0.84) > 0.91);
    CHECK(mean(0.79, 0.84) > 0.55);
}

}  // namespace voltwright

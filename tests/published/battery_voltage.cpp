#include "testing.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/tables/tables.hpp"

#include <cmath>
#include <string_view>

namespace voltwright {

namespace {

double volts_at(std::string_view chemistry, double soc_percent) {
    return in_volts(rest_voltage(built_in_tables(), chemistry, percent(soc_percent)));
}

}  // namespace

// Battery Council International, state of charge by open-circuit voltage, 80 degF (read in a sheet marked with that
// source).
TEST_CASE("rest voltage: BCI, flooded, both ways") {
    struct Row {
        double soc, voltage;
    };
    for (const Row& row : {Row{100, 12.65}, Row{75, 12.45}, Row{50, 12.24}, Row{25, 12.06}, Row{0, 11.89}}) {
        CAPTURE(row.soc);
        CHECK(volts_at("flooded", row.soc) == near(row.voltage, 0.005));
        const auto soc = soc_at_rest(built_in_tables(), "flooded", volts(row.voltage));
        REQUIRE(soc);
        CHECK(in_percent(*soc) == near(row.soc, 0.5));
    }
}

// A second opinion by electrochemistry: the electrode potentials of Bode, Lead-Acid Batteries, Wiley 1977, as coded in
// PyBaMM's parameter set Sulzer2019 (read). The acid's mass shares for the BCI's specific gravities 1.265 to 1.120 are
// from memory of acid-density tables; its molar mass is 98.08 g.
TEST_CASE("rest voltage: BCI, flooded, within 30 mV of Bode's electrode potentials") {
    const auto six_cells = [](double molality) {
        const double l = std::log10(molality);
        const double negative =
            -0.294 - 0.074 * l - 0.030 * std::pow(l, 2) - 0.031 * std::pow(l, 3) - 0.012 * std::pow(l, 4);
        const double positive =
            1.628 + 0.074 * l + 0.033 * std::pow(l, 2) + 0.043 * std::pow(l, 3) + 0.022 * std::pow(l, 4);
        return 6.0 * (positive - negative);
    };
    struct Row {
        double soc, mass_share, molality, printed;  // mol/kg; V of six cells, worked out apart from this code
    };
    for (const Row& row :
         {Row{100, 35.8, 5.6855, 12.675}, Row{75, 31.2, 4.6237, 12.460}, Row{50, 26.65, 3.7044, 12.262},
          Row{25, 22.1, 2.8925, 12.075}, Row{0, 17.35, 2.1403, 11.885}}) {
        CAPTURE(row.soc);
        const double molality = row.mass_share / (100.0 - row.mass_share) / 0.09808;
        CHECK(molality == near(row.molality, 0.005));
        CHECK(six_cells(molality) == near(row.printed, 0.001));
        CHECK(volts_at("flooded", row.soc) == near(six_cells(molality), 0.030));
    }
}

// Operation and maintenance manual of a solar-powered message sign, 2018, p. 42, 25 degC, at rest (read): another
// table. It lies with the BCI's within 50 mV down to 40 %, and ever further below it towards empty.
TEST_CASE("rest voltage: flooded, a ten-step table for a solar-powered sign") {
    struct Row {
        double soc, voltage, within;
    };
    for (const Row& row : {Row{100, 12.70, 0.055}, Row{90, 12.58, 0.05}, Row{80, 12.46, 0.05}, Row{70, 12.36, 0.05},
                           Row{60, 12.28, 0.05}, Row{50, 12.20, 0.05}, Row{40, 12.12, 0.05}, Row{30, 12.02, 0.08},
                           Row{20, 11.88, 0.15}, Row{10, 11.72, 0.24}}) {
        CAPTURE(row.soc);
        CHECK(volts_at("flooded", row.soc) == near(row.voltage, row.within));
    }
}

// Makers' charts of sealed lead agree to about 0.1 V (from memory): a bound, not a hard figure.
TEST_CASE("rest voltage: sealed lead lies within 0.1 V of what charts give") {
    struct Row {
        double soc, agm, gel;
    };
    for (const Row& row : {Row{100, 12.85, 12.90}, Row{75, 12.60, 12.65}, Row{50, 12.30, 12.35}, Row{25, 12.00, 12.00},
                           Row{0, 11.80, 11.80}}) {
        CAPTURE(row.soc);
        CHECK(volts_at("agm", row.soc) == near(row.agm, 0.1));
        CHECK(volts_at("gel", row.soc) == near(row.gel, 0.1));
    }
}

// A chart in common use for four cells of lithium iron phosphate in series, origin unnamed (read). So flat that a tenth
// of a volt spans 30 %: no state of charge is read from it.
TEST_CASE("rest voltage: the lithium iron phosphate chart in common use, one way only") {
    struct Row {
        double voltage, soc;
    };
    for (const Row& row : {Row{10.0, 0}, Row{12.0, 9}, Row{12.5, 14}, Row{12.8, 17}, Row{12.9, 20}, Row{13.0, 30},
                           Row{13.1, 40}, Row{13.2, 70}, Row{13.3, 90}, Row{13.4, 98}, Row{13.6, 100}}) {
        CAPTURE(row.soc);
        CHECK(volts_at("lfp", row.soc) == near(row.voltage, 0.05));
        CHECK_FALSE(soc_at_rest(built_in_tables(), "lfp", volts(row.voltage)));
    }
}

// The chemistries' own row and the curve's last row are one figure.
TEST_CASE("rest voltage: full as the chemistry's row has it") {
    for (const ChemistryRow& row : built_in_tables().chemistries) {
        CAPTURE(row.chemistry);
        CHECK(rest_voltage(built_in_tables(), row.chemistry, ratio(1.0)) == near(row.full, millivolts(0.1)));
    }
}

}  // namespace voltwright

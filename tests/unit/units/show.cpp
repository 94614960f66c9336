#include "testing.hpp"
#include "voltwright/units/literals.hpp"
#include "voltwright/units/parse.hpp"

#include <limits>

using namespace voltwright;
using namespace voltwright::literals;

namespace {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("a page shows a quantity in the unit that the trade would say") {
    struct Row {
        Measure measure;
        std::string_view shown;
    };
    for (const Row& row : {
             Row{25_A, "25 A"},
             Row{0.35_A, "0.35 A"},
             Row{0.354_A, "0.35 A"},
             Row{34.93647_A, "34.9 A"},
             Row{7.5_A, "7.5 A"},
             Row{2350_A, "2350 A"},
             Row{2351.85_A, "2350 A"},
             Row{9994_A, "9990 A"},
             Row{9996_A, "10 kA"},
             Row{10000_A, "10 kA"},
             Row{amperes(-25), "-25 A"},
             Row{0_A, "0 A"},
             Row{amperes(-0.0), "0 A"},
             Row{amperes(-1e-12), "0 A"},
             Row{0.67_V, "0.67 V"},
             Row{0.6688_V, "0.67 V"},
             Row{14.2_V, "14.2 V"},
             Row{13.75_V, "13.8 V"},
             Row{4.2_mV, "4.2 mV"},
             Row{9.9999_mV, "0.01 V"},
             Row{12_mV, "0.012 V"},
             Row{0.9999_V, "1 V"},
             Row{0_V, "0 V"},
             Row{1.2_mOhm, "1.2 mOhm"},
             Row{2.5_Ohm, "2.5 Ohm"},
             Row{0.3_mOhm, "0.3 mOhm"},
             Row{999.6_mOhm, "1 Ohm"},
             Row{0_Ohm, "0 mOhm"},
             Row{45_W, "45 W"},
             Row{1234_W, "1230 W"},
             Row{264_Wh, "264 Wh"},
             Row{120_Ah, "120 Ah"},
             Row{6_m, "6 m"},
             Row{5.7912_m, "5.79 m"},
             Row{178_mm, "178 mm"},
             Row{999.9_mm, "1 m"},
             Row{0_m, "0 m"},
             Row{16_mm2, "16 mm2"},
             Row{2.5_mm2, "2.5 mm2"},
             Row{40_L, "40 L"},
             Row{5_s, "5 s"},
             Row{0.2_s, "0.2 s"},
             Row{1.17625_s, "1.18 s"},
             Row{36_min, "36 min"},
             Row{36.4_min, "36 min"},
             Row{119_min, "119 min"},
             Row{120_min, "2 h"},
             Row{3.5_h, "3.5 h"},
             Row{41.7_h, "42 h"},
             Row{125_h, "125 h"},
             Row{0_s, "0 s"},
             Row{4_kg, "4 kg"},
             Row{0.25_kg, "250 g"},
             Row{degrees(-30.2), "-30.2 deg"},
             Row{80_percent, "80 %"},
             Row{5.1_percent, "5.1 %"},
             Row{5.0891_percent, "5.09 %"},
             Row{60_degC, "60 degC"},
             Row{74.82_degC, "74.8 degC"},
             Row{celsius(-0.04), "0 degC"},
             Row{105_degC, "105 degC"},
             Row{24_K, "24 K"},
             Row{4.64_K, "4.6 K"},
             Row{ohms_per_kilometre(2.21), "2.21 Ohm/km"},
             Row{grams_per_metre(74.37), "74.4 g/m"},
             Row{per_kelvin(0.00393), "0.393 %/K"},
             Row{per_kelvin(0.0015), "0.15 %/K"},
             Row{millivolts_per_kelvin(-18), "-18 mV/K"},
             Row{ohm_ampere_hours(0.6), "0.6 Ohm Ah"},
             Row{per_hour(0.2), "0.2 C"},
             Row{ampere_squared_seconds(214375), "214000 A2s"},
         }) {
        CAPTURE(row.shown);
        CHECK(show(row.measure) == row.shown);
    }
}

TEST_CASE("what is no number is shown as a question mark") {
    for (const double x : {not_a_number, infinite, -infinite})
        for (const Measure& measure :
             {Measure{amperes(x)}, Measure{metres(x)}, Measure{seconds(x)}, Measure{ratio(x)}, Measure{celsius(x)},
              Measure{kelvins(x)}, Measure{per_kelvin(x)}, Measure{degrees(x)}}) {
            CAPTURE(x);
            CHECK(show(measure) == "?");
        }
    // Finite, but not in square millimetres.
    CHECK(show(Area::from_value(1e305)) == "?");
    CHECK(show(metres(1e306)).size() == 309);
    CHECK(write({amperes(not_a_number)}) == "?");
    CHECK(write(Spread<Temperature>{31_degC, kelvins(infinite)}) == "?");
    CHECK(show(metric(not_a_number)) == "? mm2");
}

TEST_CASE("a profile is written in the trade's unit with the fewest digits") {
    CHECK(write({25_A}) == "25 A");
    CHECK(write({34.93647_A}) == "34.93647 A");
    CHECK(write({0.1_A}) == "100 mA");
    CHECK(write({4.2_mV}) == "4.2 mV");
    CHECK(write({0_A}) == "0 A");
    CHECK(write({amperes(-0.0)}) == "0 A");
    CHECK(write({13.75_V}) == "13.75 V");
    CHECK(write({20_mV}) == "20 mV");
    CHECK(write({1.2_mOhm}) == "1.2 mOhm");
    CHECK(write({4_Ohm}) == "4 Ohm");
    CHECK(write({45_W}) == "45 W");
    CHECK(write({264_Wh}) == "264 Wh");
    CHECK(write({10_J}) == "10 J");
    CHECK(write({120_Ah}) == "120 Ah");
    CHECK(write({6_m}) == "6 m");
    CHECK(write({metres(-6)}) == "-6 m");
    CHECK(write({19_ft}) == "5.7912 m");
    CHECK(write({178_mm}) == "178 mm");
    CHECK(write({16_mm2}) == "16 mm2");
    CHECK(write({40_L}) == "40 L");
    CHECK(write({90_min}) == "90 min");
    CHECK(write({0.2_s}) == "0.2 s");
    CHECK(write({90_s}) == "90 s");
    CHECK(write({150_s}) == "2.5 min");
    CHECK(write({135_s}) == "2.25 min");
    CHECK(write({1000_s}) == "1000 s");
    CHECK(write({42_h}) == "42 h");
    CHECK(write({4_kg}) == "4 kg");
    CHECK(write({degrees(-30.2)}) == "-30.2 deg");
    CHECK(write(Spread<Ratio>{80_percent}) == "80 %");
    CHECK(write(Spread<Ratio>{5.1_percent}) == "5.1 %");
    CHECK(write(Spread<Temperature>{31_degC}) == "31 degC");
    CHECK(write(Spread<Temperature>{31_degC, 3_K}) == "31 +- 3 degC");
    CHECK(write(Spread<Temperature>{celsius(400)}) == "400 degC");
    CHECK(write(Spread<TemperatureRise>{24_K}) == "24 K");
    CHECK(write({25_A, 2.5_A}) == "25 +- 2.5 A");
    CHECK(write({6_m, 0.5_m}) == "6 +- 0.5 m");
    CHECK(write({2_h, 100_s}) == "2 h +- 100 s");
}

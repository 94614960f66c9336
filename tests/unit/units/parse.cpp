#include "voltwright/units/parse.hpp"
#include "testing.hpp"
#include "voltwright/units/literals.hpp"

#include <cmath>
#include <string>
#include <type_traits>

using namespace voltwright;
using namespace voltwright::literals;

namespace {

template <class Q>
struct Reads {
    std::string_view text;
    Spread<Q> expected;
};

template <class Q>
void check(std::initializer_list<Reads<std::type_identity_t<Q>>> rows) {
    for (const auto& row : rows) {
        CAPTURE(row.text);
        const auto read = parse<Q>(row.text);
        if (!read)
            FAIL_CHECK(read.wrong().why << " | " << read.wrong().hint);
        else
            CHECK(*read == row.expected);
        CHECK(dimension_of(row.text) == dimension<Q>());
    }
}

struct Refuses {
    std::string_view text, why, hint;
    std::size_t at = 0;
};

template <class Q>
void check_reasons(std::initializer_list<Refuses> rows) {
    for (const auto& row : rows) {
        CAPTURE(row.text);
        const auto read = parse<Q>(row.text);
        REQUIRE(!read);
        CHECK(read.wrong().why == row.why);
        CHECK(read.wrong().hint == row.hint);
        CHECK(read.wrong().at == row.at);
    }
}

}  // namespace

TEST_CASE("currents in every spelling") {
    check<Current>({{"25 A", {25_A}},
                    {"25A", {25_A}},
                    {"  25 A  ", {25_A}},
                    {"25\tA", {25_A}},
                    {"25 a", {25_A}},
                    {"25 amp", {25_A}},
                    {"25 amps", {25_A}},
                    {"25 AMPS", {25_A}},
                    {"350 mA", {amperes(350 * 1e-3)}},
                    {"2.35 kA", {amperes(2.35 * 1e3)}},
                    {"+25 A", {25_A}},
                    {"-3.5 A", {amperes(-3.5)}},
                    {"\u22123.5 A", {amperes(-3.5)}},
                    {".5 A", {0.5_A}},
                    {"5. A", {5_A}},
                    {"1e2 A", {100_A}},
                    {"25\u00a0A", {25_A}},
                    {"25\u202fA", {25_A}},
                    {"\u00a025 A\u00a0", {25_A}}});
}

TEST_CASE("voltages, resistances and powers in every spelling") {
    check<Voltage>({{"14.2 V", {14.2_V}},
                    {"14.2v", {14.2_V}},
                    {"14.2 volts", {14.2_V}},
                    {"1 volt", {1_V}},
                    {"20 mV", {20_mV}},
                    {"20 mv", {20_mV}}});
    check<Resistance>({{"1.2 mOhm", {1.2_mOhm}},
                       {"1.2 mohm", {1.2_mOhm}},
                       {"1.2mOHM", {1.2_mOhm}},
                       {"1.2 m\u03a9", {1.2_mOhm}},
                       {"1.2 m\u2126", {1.2_mOhm}},
                       {"1.2 milliohm", {1.2_mOhm}},
                       {"4 Ohm", {4_Ohm}},
                       {"4 ohms", {4_Ohm}},
                       {"4 \u03a9", {4_Ohm}},
                       {"4\u2126", {4_Ohm}},
                       {"300 uOhm", {ohms(300 * 1e-6)}},
                       {"300 \u00b5\u03a9", {ohms(300 * 1e-6)}},
                       {"300 \u03bc\u2126", {ohms(300 * 1e-6)}},
                       {"300 \u00b5Ohm", {ohms(300 * 1e-6)}}});
    check<Power>({{"45 W", {45_W}},
                  {"45 watts", {45_W}},
                  {"1 watt", {1_W}},
                  {"2 kW", {2000_W}},
                  {"2 KW", {2000_W}},
                  {"500 mW", {0.5_W}}});
}

TEST_CASE("energies and charges in every spelling") {
    check<Energy>({{"264 Wh", {264_Wh}},
                   {"264wh", {264_Wh}},
                   {"2.5 kWh", {2500_Wh}},
                   {"10 J", {10_J}},
                   {"10 kJ", {10000_J}},
                   {"3.6 MJ", {1000_Wh}}});
    check<Charge>({{"120 Ah", {120_Ah}}, {"120AH", {120_Ah}}, {"120 amp hours", {120_Ah}}, {"500 mAh", {0.5_Ah}}});
}

TEST_CASE("lengths, areas and volumes in every spelling") {
    check<Length>({{"6 m", {6_m}},
                   {"6.5m", {6.5_m}},
                   {"6 M", {6_m}},
                   {"6 metres", {6_m}},
                   {"6 meters", {6_m}},
                   {"25 cm", {0.25_m}},
                   {"178 mm", {178_mm}},
                   {"178 MM", {178_mm}},
                   {"1 km", {1000_m}},
                   {"19 ft", {19_ft}},
                   {"19 feet", {19_ft}},
                   {"1 foot", {1_ft}},
                   {"7 in", {7_in}},
                   {"7 inches", {7_in}},
                   {"1 inch", {1_in}}});
    check<Area>({{"16 mm2", {16_mm2}},
                 {"16 mm\u00b2", {16_mm2}},
                 {"16 sq mm", {16_mm2}},
                 {"16 sq   mm", {16_mm2}},
                 {"16 sq\u00a0mm", {16_mm2}},
                 {"1 m2", {1e6_mm2}}});
    CHECK(parse<Area>("1 cm2")->value == near(100_mm2, square_millimetres(1e-12)));
    check<Volume>({{"40 L", {40_L}}, {"40 l", {40_L}}, {"40 litres", {40_L}}, {"1 liter", {1_L}}});
}

TEST_CASE("durations, masses and angles in every spelling") {
    check<Duration>({{"5 s", {5_s}},
                     {"5 sec", {5_s}},
                     {"100 ms", {seconds(100 * 1e-3)}},
                     {"90 min", {90_min}},
                     {"90 MIN", {90_min}},
                     {"2.5 h", {2.5_h}},
                     {"2 hours", {2_h}},
                     {"1 hour", {1_h}},
                     {"3 d", {72_h}},
                     {"3 days", {72_h}},
                     {"1 day", {24_h}}});
    check<Mass>({{"4 kg", {4_kg}}, {"250 g", {0.25_kg}}, {"10 lb", {kilograms(10 * 0.45359237)}}});
    check<Angle>({{"30 deg", {30_deg}},
                  {"-30.2 deg", {degrees(-30.2)}},
                  {"30\u00b0", {30_deg}},
                  {"30 degrees", {30_deg}},
                  {"1 degree", {1_deg}},
                  {"0.5 rad", {radians(0.5)}}});
}

TEST_CASE("per cent in every spelling") {
    check<Ratio>({{"80 %", {80_percent}},
                  {"80%", {80_percent}},
                  {"80 percent", {80_percent}},
                  {"80 per cent", {80_percent}},
                  {"0 %", {ratio(0.0)}},
                  {"5.1 %", {5.1_percent}}});
}

TEST_CASE("temperatures are points on the scale, rises are differences") {
    check<Temperature>({{"31 degC", {31_degC}},
                        {"31\u00b0C", {31_degC}},
                        {"31 \u00b0C", {31_degC}},
                        {"31 \u00b0 c", {31_degC}},
                        {"31 deg C", {31_degC}},
                        {"31 DEGC", {31_degC}},
                        {"-5 degC", {celsius(-5)}},
                        {"88 degF", {fahrenheit(88)}},
                        {"88 \u00b0F", {fahrenheit(88)}},
                        {"300 K", {absolute_kelvins(300)}}});
    check<TemperatureRise>({{"24 K", {24_K}}, {"24 degC", {24_K}}, {"24 \u00b0C", {24_K}}, {"18 degF", {10_K}}});
}

TEST_CASE("a spread, with the unit once or twice") {
    check<Temperature>({{"31 \u00b1 3 degC", {31_degC, 3_K}},
                        {"31 +- 3 degC", {31_degC, 3_K}},
                        {"31 +/- 3 degC", {31_degC, 3_K}},
                        {"31 degC \u00b1 3", {31_degC, 3_K}},
                        {"31 degC \u00b1 3 degC", {31_degC, 3_K}},
                        {"31 degC \u00b1 3 K", {31_degC, 3_K}},
                        {"31 degC +- 9 degF", {31_degC, 5_K}},
                        {"31\u00b13degC", {31_degC, 3_K}},
                        {"31 \u00b1 3 \u00b0C", {31_degC, 3_K}},
                        {"-5 +- 2 degC", {celsius(-5), 2_K}}});
    check<Length>({{"6 +- 0.5 m", {6_m, 0.5_m}}, {"6 m +- 50 cm", {6_m, 0.5_m}}, {"6 m +- 0", {6_m}}});
    check<Current>({{"25 A +- 10 %", {25_A, 2.5_A}}, {"-25 A +- 10 %", {amperes(-25), 2.5_A}}});
    check<Ratio>({{"80 % +- 5 %", {80_percent, 5_percent}}, {"80 +- 5 %", {80_percent, 5_percent}}});
    check<TemperatureRise>({{"20 K +- 10 %", {20_K, 2_K}}});
}

TEST_CASE("minus nought is nought") {
    CHECK(!std::signbit(parse<Current>("-0 A")->value.value()));
    CHECK(!std::signbit(parse<TemperatureRise>("-0 K")->value.value()));
    CHECK(!std::signbit(parse<Current>("6 A +- -0 A")->half_width.value()));
}

TEST_CASE("another dimension is named, and so is the one that is wanted") {
    check_reasons<Length>({
        {"12 V", "this is a voltage; a length is wanted", "\"6.5 m\"", 3},
        {"  12 V", "this is a voltage; a length is wanted", "\"6.5 m\"", 5},
        {"16 mm2", "this is an area; a length is wanted", "\"6.5 m\"", 3},
        {"5 min", "this is a duration; a length is wanted", "\"6.5 m\"", 2},
        {"5 +- 1 %", "this is a ratio; a length is wanted", "\"6.5 m\"", 7},
    });
    check_reasons<Charge>({{"264 Wh", "this is an energy; a charge is wanted", "\"120 Ah\"", 4},
                           {"25 A", "this is a current; a charge is wanted", "\"120 Ah\"", 3}});
    check_reasons<Temperature>({{"30 deg", "this is an angle; a temperature is wanted", "\"31 degC\"", 3}});
    check_reasons<TemperatureRise>(
        {{"30 V", "this is a voltage; a difference of temperatures is wanted", "\"24 K\"", 3}});
    check_reasons<Current>({{"25 A +- 3 V", "the half width is a voltage; a current is wanted", "\"25 A\"", 10}});
}

TEST_CASE("a bare number needs its unit") {
    check_reasons<Length>({
        {"6", "a length needs its unit", "\"6 m\"", 1},
        {"6.5 ", "a length needs its unit", "\"6.5 m\"", 3},
        {"6 +- 1", "a length needs its unit", "\"6 m\"", 6},
        {"0.0000000000000000000006", "a length needs its unit", "\"6.5 m\"", 24},
    });
    check_reasons<Current>({{"25", "a current needs its unit", "\"25 A\"", 2}});
    check_reasons<Duration>({{"5", "a duration needs its unit", "\"90 min\"", 1}});
    check_reasons<Ratio>({{"80", "a ratio needs its unit", "\"80 %\"", 2},
                          {"0.5", "a ratio needs its unit", "\"50 %\" or \"0.5 %\"", 3}});
    check_reasons<TemperatureRise>({{"24", "a difference of temperatures needs its unit", "\"24 K\"", 2}});
}

TEST_CASE("a decimal comma is pointed out") {
    check_reasons<Length>({
        {"6,5 m", "'6,5': write the decimal with a point", "\"6.5 m\"", 0},
        {"6,5", "'6,5': write the decimal with a point", "\"6.5 m\"", 0},
        {"19,5 ft", "'19,5': write the decimal with a point", "\"19.5 ft\"", 0},
        {"1,000 m", "'1,000': write the decimal with a point", "\"1.000 m\" or \"1000 m\"", 0},
        {"-6,5 m", "'-6,5': write the decimal with a point", "\"-6.5 m\"", 0},
    });
    check_reasons<Temperature>({{"31 +- 2,5 degC", "'2,5': write the decimal with a point", "\"31 degC\"", 6}});
}

TEST_CASE("an unknown unit, with the nearest that is known") {
    check_reasons<Length>({
        {"6 metre3", "'metre3' is no unit that is known here", "did you mean \"metre\"?", 2},
        {"6 metrs", "'metrs' is no unit that is known here", "did you mean \"metre\"?", 2},
        {"6 x", "'x' is no unit that is known here", "\"6.5 m\"", 2},
        {"6 furlongs", "'furlongs' is no unit that is known here", "\"6.5 m\"", 2},
        {"6 m +- 1 furlong", "'furlong' is no unit that is known here", "\"6.5 m\"", 9},
    });
    check_reasons<Power>({{"45 wats", "'wats' is no unit that is known here", "did you mean \"watt\"?", 3}});
}

TEST_CASE("m for milli is not M for mega") {
    check_reasons<Voltage>(
        {{"20 MV", "'MV' is no unit that is known here", "m is for milli and M for mega: \"mV\"", 3}});
    check_reasons<Resistance>(
        {{"1.2 MOhm", "'MOhm' is no unit that is known here", "m is for milli and M for mega: \"mOhm\"", 4},
         {"1.2 Mohm", "'Mohm' is no unit that is known here", "m is for milli and M for mega: \"mOhm\"", 4},
         {"1.2 M\u03a9", "'M\u03a9' is no unit that is known here", "m is for milli and M for mega: \"m\u03a9\"", 4}});
    check_reasons<Energy>({{"5 mJ", "'mJ' is no unit that is known here", "m is for milli and M for mega: \"MJ\"", 2}});
    check_reasons<Power>({{"5 MW", "'MW' is no unit that is known here", "m is for milli and M for mega: \"mW\"", 2}});
    check_reasons<Duration>(
        {{"5 Ms", "'Ms' is no unit that is known here", "m is for milli and M for mega: \"ms\"", 2}});
    check_reasons<Charge>(
        {{"5 MAh", "'MAh' is no unit that is known here", "m is for milli and M for mega: \"mAh\"", 2}});
}

TEST_CASE("signs for which there is a unit to write instead") {
    const std::string_view no_c = "'C' is no unit of temperature here; the sign of the degree is missing";
    check_reasons<Temperature>({
        {"31 C", no_c, "\"31 degC\"", 3},
        {"31c", no_c, "\"31 degC\"", 2},
        {"88 F", "'F' is no unit of temperature here; the sign of the degree is missing", "\"88 degF\"", 3},
        {"31 +- 3 C", no_c, "\"31 +- 3 degC\"", 8},
        {"31 degC +- 3 C", no_c, "\"31 degC +- 3 degC\"", 13},
        {"12 V +- 3 C", no_c, "\"31 degC\"", 10},
    });
    check_reasons<Length>({
        {"6'", "the sign ' for feet is not understood", "\"6 ft\"", 1},
        {"6\"", "the sign \" for inches is not understood", "\"6 in\"", 1},
        {"6\u2032", "the sign \u2032 for feet is not understood", "\"6 ft\"", 1},
        {"6'3\"", "the sign \" for inches is not understood", "feet with a point, or inches: \"6.5 ft\", \"78 in\"", 1},
    });
}

TEST_CASE("more than one number") {
    check_reasons<Length>({
        {"5-7 m", "'5-7 m' is a range; one value is wanted", "\"6 +- 1 m\"", 1},
        {"5 to 7 m", "'5 to 7 m' is a range; one value is wanted", "\"6 +- 1 m\"", 2},
        {"5 \u2013 7 m", "'5 \u2013 7 m' is a range; one value is wanted", "\"6 +- 1 m\"", 2},
        {"1 000 m", "'1 000 m' is more than one number", "one number, then its unit: \"6.5 m\"", 2},
        {"6.5.2 m", "'6.5.2 m' is more than one number", "one number, then its unit: \"6.5 m\"", 3},
        {"5 ft 3 in", "'3 in' behind the unit is not understood", "one number, then its unit: \"6.5 m\"", 5},
        {"6 m long", "'long' behind the unit is not understood", "\"6 m\"", 4},
        {"12 V nominal", "'nominal' behind the unit is not understood", "\"6.5 m\"", 5},
        {"6 +- 1 m about", "'about' behind the unit is not understood", "\"6 +- 1 m\"", 9},
        {"6 m m", "'m' behind the unit is not understood", "\"6 m\"", 4},
    });
}

TEST_CASE("no number at all") {
    check_reasons<Length>({
        {"", "this text is empty; a length is wanted", "\"6.5 m\"", 0},
        {"   ", "this text is empty; a length is wanted", "\"6.5 m\"", 0},
        {"\u00a0", "this text is empty; a length is wanted", "\"6.5 m\"", 0},
        {"m", "'m' does not begin with a number", "\"6.5 m\"", 0},
        {"about 6 m", "'about 6 m' does not begin with a number", "\"6.5 m\"", 0},
        {"--6 m", "'--6 m' does not begin with a number", "\"6.5 m\"", 0},
        {"inf m", "'inf m' does not begin with a number", "\"6.5 m\"", 0},
        {"nan m", "'nan m' does not begin with a number", "\"6.5 m\"", 0},
        {"-inf m", "'-inf m' does not begin with a number", "\"6.5 m\"", 0},
        {". m", "'. m' does not begin with a number", "\"6.5 m\"", 0},
        {"+- 2 m", "no number stands before the sign +-", "\"6.5 m\"", 0},
        {"6 m +-", "no half width follows the sign +-", "\"6.5 m\"", 6},
        {"6 m +- x", "'x' does not begin with a number", "\"6.5 m\"", 7},
        {"6 m +- 1 m +- 1 m", "'+- 1 m' behind the unit is not understood", "\"6 m +- 1 m\"", 11},
        {"6 m +- -1 m", "a half width is not negative; this one is '-1'", "\"6.5 m\"", 7},
        {"-6 m +- \u22121 m", "a half width is not negative; this one is '\u22121'", "\"6.5 m\"", 8},
    });
}

TEST_CASE("numbers that are not finite in SI") {
    check_reasons<Energy>({
        {"1e999 J", "'1e999' is a number too large or too small to work with", "\"264 Wh\"", 0},
        {"1e-999 J", "'1e-999' is a number too large or too small to work with", "\"264 Wh\"", 0},
        {"1e308 kWh", "this number is too large to work with", "\"264 Wh\"", 6},
        {"1 kWh +- 1e308 kWh", "this half width is too large to work with", "\"264 Wh\"", 15},
    });
}

TEST_CASE("a temperature has no spread in per cent") {
    check_reasons<Temperature>(
        {{"31 degC +- 10 %", "a temperature has no per cent of its own; give the half width in degrees", "\"31 degC\"",
          14}});
}

TEST_CASE("what cannot be seen is not repeated in a message") {
    using namespace std::string_view_literals;
    check_reasons<Length>({
        {"6 \x1b[31m"sv, "'?[31m' is no unit that is known here", "\"6.5 m\"", 2},
        {"6 m\0"sv, "'m?' is no unit that is known here", "\"6.5 m\"", 2},
        {"6 \xff\xfe"sv, "'?\?' is no unit that is known here", "\"6.5 m\"", 2},
        {"6 \xe0\x80\xaf"sv, "'?\?\?' is no unit that is known here", "\"6.5 m\"", 2},
        {"6 \xc3"sv, "'?' is no unit that is known here", "\"6.5 m\"", 2},
        {"6 \u202emm"sv, "'?mm' is no unit that is known here", "\"6.5 m\"", 2},
        {"6 \u0085x"sv, "'?x' is no unit that is known here", "\"6.5 m\"", 2},
    });
    const std::string many = "6 " + std::string(100, 'q');
    CHECK(parse<Length>(many).wrong().why == "'" + std::string(40, 'q') + "...' is no unit that is known here");
    std::string forty = "6 ";
    for (int i = 0; i < 41; ++i) forty += "\u03bb";
    CHECK(parse<Length>(forty).wrong().why.find("\u03bb...'") != std::string::npos);
}

TEST_CASE("a text longer than 200 bytes is refused before it is read") {
    const std::string blanks(197, ' ');
    CHECK(parse<Length>(blanks + "6 m"));
    const auto longer = parse<Length>(blanks + " 6 m");
    REQUIRE(!longer);
    CHECK(longer.wrong().why == "this text is too long for a quantity");
    CHECK(!dimension_of(blanks + " 6 m"));
    CHECK(!parse_gauge(blanks + "8 AWG"));
}

TEST_CASE("the dimension of a text that is no quantity is nothing") {
    for (const std::string_view text : {"", "6", "m", "6 furlongs", "6,5 m", "8 AWG", "31 C", "6 m long", "20 MV"}) {
        CAPTURE(text);
        CHECK(!dimension_of(text));
    }
}

TEST_CASE("every dimension has a name, an example that reads as it, and units that read as it") {
    for (int i = 0; i <= static_cast<int>(Dimension::temperature); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        const std::string_view name = name_of(dimension);
        CAPTURE(name);
        CHECK((name.starts_with("a ") || name.starts_with("an ")));
        CHECK(dimension_of(example_of(dimension)) == dimension);
        std::string_view rest = units_of(dimension);
        CHECK(!rest.empty());
        while (!rest.empty()) {
            const std::size_t comma = rest.find(", ");
            const std::string unit(rest.substr(0, comma));
            CAPTURE(unit);
            CHECK(dimension_of("2" + unit) == dimension);
            CHECK(dimension_of("2 +- 1 " + unit) == dimension);
            rest = comma == std::string_view::npos ? std::string_view{} : rest.substr(comma + 2);
        }
    }
    CHECK(units_of(Dimension::current).starts_with("A, mA"));
}

TEST_CASE("edit distance counts a swap once and forgives case") {
    CHECK(edit_distance("", "") == 0);
    CHECK(edit_distance("", "abc") == 3);
    CHECK(edit_distance("abc", "") == 3);
    CHECK(edit_distance("lenght", "length") == 1);
    CHECK(edit_distance("LENGTH", "length") == 0);
    CHECK(edit_distance("kitten", "sitting") == 3);
    CHECK(edit_distance("ab", "ba") == 1);
    CHECK(edit_distance("run", "runs") == 1);
}

TEST_CASE("the nearest word is near or is none") {
    const std::string_view known[] = {"length", "return", "size"};
    CHECK(nearest_word("lenght", known) == "length");
    CHECK(nearest_word("retrun", known) == "return");
    CHECK(!nearest_word("chemistry", known));
}

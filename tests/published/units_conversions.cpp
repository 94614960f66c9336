// Conversion factors that standards print. The tolerance is half the last printed digit; where a factor is exact, the
// last bit of a double.

#include "testing.hpp"
#include "voltwright/units/literals.hpp"
#include "voltwright/units/parse.hpp"

using namespace voltwright;
using namespace voltwright::literals;

namespace {

template <class Q>
Q read(std::string_view text) {
    const auto quantity = parse<Q>(text);
    REQUIRE(quantity);
    return quantity->value;
}

}  // namespace

// International yard and pound agreement of 1959: the yard is 0.9144 m, the pound 0.453 592 37 kg, both exactly; the foot
// is a third of the yard and the inch a 36th. From memory, as NIST SP 811 repeats them.
TEST_CASE("foot, inch and pound, agreement of 1959, from memory") {
    CHECK(read<Length>("3 ft") == near(metres(0.9144), metres(1e-15)));
    CHECK(read<Length>("36 in") == near(metres(0.9144), metres(1e-15)));
    CHECK(read<Length>("1 ft") == near(metres(0.3048), metres(1e-16)));
    CHECK(read<Length>("1 in") == near(metres(0.0254), metres(1e-17)));
    CHECK(read<Mass>("1 lb") == near(kilograms(0.45359237), kilograms(1e-16)));
    CHECK(feet(3.0) == near(metres(0.9144), metres(1e-15)));
    CHECK(inches(36.0) == near(metres(0.9144), metres(1e-15)));
}

// NIST SP 811, appendix B.8, from memory: circular mil 5.067 075 E-10 m2; watt hour 3.6 E+03 J; kilowatt hour 3.6 E+06 J;
// ampere hour 3.6 E+03 C; degree 1.745 329 E-02 rad; day 8.64 E+04 s; litre 1.0 E-03 m3; foot 3.048 E-01 m;
// pound per foot 1.488 164 kg/m.
TEST_CASE("conversion factors, NIST SP 811 appendix B.8, from memory") {
    CHECK(in_square_millimetres(circular_mils(1.0)) == near(5.067075e-4, 0.5e-10));
    CHECK(read<Energy>("1 Wh") == joules(3.6e3));
    CHECK(read<Energy>("1 kWh") == joules(3.6e6));
    CHECK(read<Charge>("1 Ah").value() == 3.6e3);
    CHECK(read<Angle>("1 deg") == near(radians(1.745329e-2), radians(0.5e-8)));
    CHECK(read<Duration>("1 d") == seconds(8.64e4));
    CHECK(read<Volume>("1 L") == near(litres(1.0), litres(0.0)));
    CHECK(read<Volume>("1 L").value() == 1e-3);
    CHECK(in_grams_per_metre(pounds_per_1000_feet(1000.0)) == near(1488.164, 0.0005));
}

// NIST SP 811, appendix B.8 and the definition of the scale: t/degC = (t/degF - 32)/1.8, T/K = t/degC + 273.15. The fixed
// points: water freezes at 32 degF and boils at 212 degF, and -40 is the same on both. Known since the scales were made.
TEST_CASE("degrees Fahrenheit at the fixed points, NIST SP 811, from memory") {
    struct Row {
        std::string_view text;
        double celsius_printed;
    };
    for (const Row& row : {Row{"32 degF", 0.0}, Row{"212 degF", 100.0}, Row{"-40 degF", -40.0}, Row{"98.6 degF", 37.0},
                           Row{"273.15 K", 0.0}, Row{"0 K", -273.15}}) {
        CAPTURE(row.text);
        CHECK(in_celsius(read<Temperature>(row.text)) == near(row.celsius_printed, 1e-12));
    }
    CHECK(read<TemperatureRise>("180 degF") == near(kelvins(100.0), kelvins(1e-12)));
}

// What a meter may be off, held to makers' printed examples.

#include "voltwright/diagnosis/meter.hpp"
#include "journeys.hpp"
#include "testing.hpp"

#include <cmath>

using namespace voltwright;

namespace {

Meter meter(double percent_of_reading, Voltage fixed) {
    const Accuracy<Voltage> both{percent(percent_of_reading), fixed};
    return {both, both, {percent(2), amperes(0.1)}};
}

}  // namespace

// A meter maker's guide (read): ±(1 % + 2) at 100.0 V reads 98.8 V to 101.2 V.
TEST_CASE("meter: one per cent and two digits of 0.1 V at 100.0 V are 1.2 V") {
    CHECK(meter(1, volts(0.2)).error(volts(100)) == near(volts(1.2), volts(0.05)));
}

// A meter maker's help page (read): ±(1 % + 3), 120 V on the 600.0 V range: 1.2 V + 0.3 V = 1.5 V.
TEST_CASE("meter: one per cent and three digits of 0.1 V at 120 V are 1.5 V") {
    CHECK(meter(1, volts(0.3)).error(volts(120)) == near(volts(1.5), volts(0.05)));
}

// A meter maker's page (read): ±(0.5 % + 3), 2 V in steps of 0.001 V: 1.987 V to 2.013 V.
TEST_CASE("meter: half a per cent and three digits of 1 mV at 2 V are 13 mV") {
    CHECK(meter(0.5, volts(0.003)).error(volts(2)) == near(volts(0.013), volts(0.0005)));
}

// Worked out by hand from ±(0.5 % + 2), no source: 12.60 V in steps of 0.01 V ± 0.083 V, 250.0 mV in steps of 0.1 mV
// ± 1.45 mV; at 30 A that is 0.048 mΩ.
TEST_CASE("meter: the millivolt range tells a tenth of a milliohm, the difference of two volts does not") {
    const Meter usual{{percent(0.5), volts(0.02)}, {percent(0.5), millivolts(0.2)}, {percent(2), amperes(0.1)}};
    CHECK(usual.error(volts(12.6)) == near(volts(0.083), volts(0.0005)));
    CHECK(usual.error(millivolts(250)) == near(millivolts(1.45), millivolts(0.005)));
    CHECK(usual.error(millivolts(250)) / amperes(30) == near(milliohms(0.048), milliohms(0.0005)));
    // Two of 12 V, one from the other: 0.117 V, 3.9 mΩ at 30 A.
    const Voltage two = std::sqrt(2.0) * usual.error(volts(12.6));
    CHECK(two == near(volts(0.117), volts(0.0005)));
    CHECK(two / amperes(30) == near(milliohms(3.9), milliohms(0.05)));
}

// JCGM 100:2008 (the Guide to the expression of uncertainty in measurement), 4.3.7, from memory: bounds ±a with nothing
// else known have a standard uncertainty of a/√3. Its example there, also from memory: a = 40e-6 of a length, u = 23e-6.
TEST_CASE("meter: what lies evenly within its bounds has a standard uncertainty of 0.577 of them") {
    const Meter usual = meter(0, volts(40e-6));
    CHECK(usual.uncertainty(volts(1.0)).number() == doctest::Approx(23e-6).epsilon(0.02));
}

#include "voltwright/profile/sections/meter.hpp"

#include "voltwright/profile/formats/accuracy.hpp"
#include "voltwright/profile/sections/rows.hpp"

namespace voltwright {

using namespace rows;

namespace {

std::span<const Key> meter_rows() {
    static const Key rows[] = {
        key<&MeterKeys::voltage>("voltage", usual("0.8 % + 50 mV"),
                                 {between(ratio(0.0), percent(20.0)), between(volts(0.0), volts(1.0))},
                                 "accuracy of the multimeter at 12 V: a share of the reading and a fixed part"),
        key<&MeterKeys::millivolts>("millivolts", usual("0.8 % + 0.5 mV"),
                                    {between(ratio(0.0), percent(20.0)), between(volts(0.0), volts(1.0))},
                                    "accuracy of its millivolt range, on which drops below 0.4 V are read"),
        key<&MeterKeys::current>("current", usual("3 % + 0.2 A"),
                                 {between(ratio(0.0), percent(20.0)), between(amperes(0.0), amperes(20.0))},
                                 "accuracy of the current clamp"),
    };
    return rows;
}

}  // namespace

SectionRow meter_section() {
    SectionRow row =
        one_section<&Profile::meter>("meter", "how true the meter is that the readings were taken with", meter_rows());
    return row;
}

}  // namespace voltwright

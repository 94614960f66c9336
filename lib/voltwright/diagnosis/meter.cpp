#include "voltwright/diagnosis/meter.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

Voltage Meter::error(Voltage reading) const {
    const Voltage size = reading < Voltage{} ? -reading : reading;
    const Accuracy<Voltage>& range = size <= millivolt_range ? millivolts : voltage;
    return range.share * size + range.fixed;
}

Current Meter::error(Current reading) const {
    return current.share * (reading < Current{} ? -reading : reading) + current.fixed;
}

MeterValue Meter::finest(const MeterValue& reading) {
    constexpr Voltage voltage_step = volts(0.1e-3);
    constexpr Current current_step = amperes(10e-3);
    const double root = std::sqrt(12.0);
    if (reading.is_current()) return Current(current_step / root);
    return Voltage(voltage_step / root);
}

MeterValue Meter::uncertainty(const MeterValue& reading) const {
    const MeterValue most =
        reading.is_current() ? MeterValue(error(reading.current())) : MeterValue(error(reading.voltage()));
    return std::max(most.of_same_unit(most.number() / std::sqrt(3.0)), finest(reading));
}

Meter meter_of(const MeterAccuracy& accuracy) { return {accuracy.voltage, accuracy.millivolts, accuracy.current}; }

}  // namespace voltwright

#include "voltwright/planning/meter.hpp"

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

double Meter::uncertainty(const Probe& probe, double reading) const {
    const double most = probe.clamp() ? in_amperes(error(amperes(reading))) : in_volts(error(volts(reading)));
    return std::max(most / std::sqrt(3.0), finest(probe));
}

Meter meter_of(const Profile& complete) {
    return {*complete.meter.voltage, *complete.meter.millivolts, *complete.meter.current};
}

}  // namespace voltwright

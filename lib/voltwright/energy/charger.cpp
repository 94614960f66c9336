#include "voltwright/energy/charger.hpp"

#include <algorithm>

namespace voltwright {

Compensation compensation_of(const ChemistryRow& chemistry) {
    return {chemistry.compensation, chemistry.compensated_from, chemistry.compensated_to};
}

CompensatedVoltage compensated_voltage(Voltage at_25, const Compensation& compensation, Temperature temperature) {
    Temperature followed = temperature;
    if (compensation.from) followed = std::max(followed, *compensation.from);
    if (compensation.to) followed = std::min(followed, *compensation.to);
    return {at_25, compensation.per_kelvin, followed, at_25 + compensation.per_kelvin * (followed - celsius(25))};
}

Ratio output_share(Temperature around, Temperature full_output_to, PerKelvin derate, Temperature off_above) {
    if (around > off_above) return Ratio{};
    if (!(around > full_output_to)) return 1.0;
    return std::max<Ratio>(1.0 - derate * (around - full_output_to), 0.0);
}

}  // namespace voltwright

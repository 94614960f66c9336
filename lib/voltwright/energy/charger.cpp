#include "voltwright/energy/charger.hpp"

#include <algorithm>

namespace voltwright {

CompensatedVoltage compensated_voltage(Voltage at_25, VoltagePerKelvin compensation, Temperature temperature) {
    return {at_25, compensation, temperature, at_25 + compensation * (temperature - celsius(25))};
}

Ratio output_share(Temperature around, Temperature full_output_to, PerKelvin derate, Temperature off_above) {
    if (around > off_above) return Ratio{};
    if (!(around > full_output_to)) return 1.0;
    return std::max<Ratio>(1.0 - derate * (around - full_output_to), 0.0);
}

}  // namespace voltwright

#include "voltwright/energy/charger.hpp"

namespace voltwright {

CompensatedVoltage compensated_voltage(Voltage at_25, VoltagePerKelvin compensation, Temperature temperature) {
    return {at_25, compensation, temperature, at_25 + compensation * (temperature - celsius(25))};
}

}  // namespace voltwright

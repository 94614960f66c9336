#pragma once

#include "voltwright/tables/chemistries.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>

namespace voltwright {

/// How a charger corrects its voltage by the battery's temperature. A bare one does not: lithium, or no sensor.
struct Compensation {
    VoltagePerKelvin per_kelvin = {};
    std::optional<Temperature> from = {}, to = {};  ///< beyond these it goes on as there
};
Compensation compensation_of(const ChemistryRow& chemistry);

/// A charging voltage corrected for the battery's temperature.
///
///     V = V_25 + k·(T − 25 °C)      T no colder and no warmer than the charger goes along with
///
/// k   the chemistry's compensation: negative for lead, nothing for lithium or without a sensor
///
/// Source: the practice of lead-acid makers (−18 to −32 mV/K for 12 V); the value is the chemistry's row.
struct CompensatedVoltage {
    Voltage at_25;
    VoltagePerKelvin compensation;
    Temperature temperature;
    Voltage voltage;
};

CompensatedVoltage compensated_voltage(Voltage at_25, const Compensation& compensation, Temperature temperature);

/// The share of its output that a charger gives in hot surroundings.
///
///     s = 1 − d·(T − T_full)      above T_full; nothing above T_off
///
/// d   lost for each kelvin     T_full, T_off   from the profile; the usual ones are a rule of thumb
///
/// Common practice, no source: a sheet of the charger's own counts before it.
Ratio output_share(Temperature around, Temperature full_output_to, PerKelvin derate, Temperature off_above);

}  // namespace voltwright

#pragma once

#include "voltwright/units/quantities.hpp"

#include <variant>

namespace voltwright {

/// Any one quantity that a page may show or a finding may compare. The alternative says the unit it is shown in.
using Measure = std::variant<Current, Voltage, Resistance, Power, Energy, Charge, Length, Area, Volume, Duration, Mass,
                             Angle, Ratio, Temperature, TemperatureRise, ResistancePerLength, MassPerLength, PerKelvin,
                             VoltagePerKelvin, ResistanceTimesCharge, ChargeRate, JouleIntegral, ThermalConductance,
                             SpecificHeat, Irradiance, Irradiation>;

}  // namespace voltwright

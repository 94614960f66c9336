#pragma once

#include "voltwright/units/measure.hpp"
#include "voltwright/units/spread.hpp"

#include <string>

namespace voltwright {

/// A quantity in the unit that the trade would say, rounded as a page wants it: "25 A", "0.67 V", "1.2 mOhm", "60 degC".
///
/// Three significant digits at most where that reads naturally ("93 A", "0.67 V", "14.2 V"), never an exponent, no
/// trailing zeros after the point, plain ASCII. The result reads back with `parse` to the rounding shown.
std::string show(Current);
std::string show(Voltage);
std::string show(Resistance);
std::string show(Power);
std::string show(Energy);
std::string show(Charge);
std::string show(Length);
std::string show(Area);
std::string show(Volume);
std::string show(Duration);
std::string show(Mass);
std::string show(Angle);
std::string show(Ratio);  ///< in per cent
std::string show(Temperature);
std::string show(TemperatureRise);
std::string show(ResistancePerLength);
std::string show(MassPerLength);
std::string show(PerKelvin);
std::string show(VoltagePerKelvin);
std::string show(ResistanceTimesCharge);
std::string show(ChargeRate);
std::string show(JouleIntegral);
std::string show(ThermalConductance);
std::string show(SpecificHeat);
std::string show(Irradiance);
std::string show(Irradiation);
std::string show(const Measure& measure);

/// The shortest text that `parse<Q>` reads back as the very same value, in the unit that the trade would say:
/// "13.75 V", "31 +- 3 degC". For profiles written by us; pages use `show`.
std::string write(Spread<Current>);
std::string write(Spread<Voltage>);
std::string write(Spread<Resistance>);
std::string write(Spread<Power>);
std::string write(Spread<Energy>);
std::string write(Spread<Charge>);
std::string write(Spread<Length>);
std::string write(Spread<Area>);
std::string write(Spread<Volume>);
std::string write(Spread<Duration>);
std::string write(Spread<Mass>);
std::string write(Spread<Angle>);
std::string write(Spread<Ratio>);  ///< exact for what was read or made by percent(); else the last bit may differ
std::string write(Spread<Temperature>);
std::string write(Spread<TemperatureRise>);

}  // namespace voltwright

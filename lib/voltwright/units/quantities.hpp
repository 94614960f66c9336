#pragma once

/// The front door of every quantity: names, makers and readers.
///
/// A number becomes a quantity, or a quantity a number, only where its unit is spoken. Inside, all is coherent SI;
/// ampere-hours, square millimetres, milliohms, degrees Celsius, feet and gauges exist only here, in literals.hpp and
/// in parse and show.

#include <boost/units/absolute.hpp>
#include <boost/units/cmath.hpp>
#include <boost/units/limits.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si.hpp>

#include <limits>

/// Planning of the second 12 V system of a vehicle, in quantities that carry their units in their types.
namespace voltwright {

namespace units = boost::units;
namespace si = boost::units::si;

using Current = units::quantity<si::current>;
using Voltage = units::quantity<si::electric_potential>;
using Resistance = units::quantity<si::resistance>;
using Power = units::quantity<si::power>;
using Energy = units::quantity<si::energy>;
using Charge = units::quantity<si::electric_charge>;
using Length = units::quantity<si::length>;
using Area = units::quantity<si::area>;
using Volume = units::quantity<si::volume>;
using Duration = units::quantity<si::time>;
using Mass = units::quantity<si::mass>;
using Angle = units::quantity<si::plane_angle>;
/// 0 … 1, never 0 … 100.
using Ratio = units::quantity<si::dimensionless>;
/// A point on the scale; two of them cannot be added. A default-made one is 0 K: name a reference instead.
using Temperature = units::quantity<units::absolute<si::temperature>>;
/// A difference of two temperatures.
using TemperatureRise = units::quantity<si::temperature>;

using ResistancePerLength = units::quantity<units::divide_typeof_helper<si::resistance, si::length>::type>;
using MassPerLength = units::quantity<units::divide_typeof_helper<si::mass, si::length>::type>;
using PerKelvin = units::quantity<units::divide_typeof_helper<si::dimensionless, si::temperature>::type>;
using VoltagePerKelvin = units::quantity<units::divide_typeof_helper<si::electric_potential, si::temperature>::type>;
/// A battery's resistance times its capacity: what a chemistry has of its own. Printed as ohm ampere-hours.
using ResistanceTimesCharge = units::quantity<units::multiply_typeof_helper<si::resistance, si::electric_charge>::type>;
/// Current as a share of the capacity in an hour. Printed as 1/h ("0.2 C").
using ChargeRate = units::quantity<si::frequency>;
/// The heating effect of a current over a time, "I squared t".
using JouleIntegral = units::quantity<
    units::multiply_typeof_helper<units::multiply_typeof_helper<si::current, si::current>::type, si::time>::type>;

/// Heat through a wall for each kelvin of difference across it.
using ThermalConductance = units::quantity<units::divide_typeof_helper<si::power, si::temperature>::type>;
/// Heat to warm a mass. Printed as kJ/(kg K).
using SpecificHeat = units::quantity<
    units::divide_typeof_helper<units::divide_typeof_helper<si::energy, si::mass>::type, si::temperature>::type>;
/// Heat to melt a mass. Printed as kJ/kg.
using EnergyPerMass = units::quantity<units::divide_typeof_helper<si::energy, si::mass>::type>;
/// Power of the sun on a surface.
using Irradiance = units::quantity<units::divide_typeof_helper<si::power, si::area>::type>;
/// Energy of the sun on a surface. Printed as MJ/m2.
using Irradiation = units::quantity<units::divide_typeof_helper<si::energy, si::area>::type>;

static_assert(std::numeric_limits<Current>::has_infinity, "boost/units/limits.hpp must be seen before any use");

// ---- makers ---------------------------------------------------------------------------------------------------------

constexpr Current amperes(double x) { return x * si::ampere; }
constexpr Voltage volts(double x) { return x * si::volt; }
constexpr Voltage millivolts(double x) { return x * 1e-3 * si::volt; }
constexpr Resistance ohms(double x) { return x * si::ohm; }
constexpr Resistance milliohms(double x) { return x * 1e-3 * si::ohm; }
constexpr Power watts(double x) { return x * si::watt; }
constexpr Energy joules(double x) { return x * si::joule; }
constexpr Energy watt_hours(double x) { return x * 3600.0 * si::joule; }
constexpr Charge ampere_hours(double x) { return x * 3600.0 * si::coulomb; }
constexpr Length metres(double x) { return x * si::metre; }
constexpr Length millimetres(double x) { return x * 1e-3 * si::metre; }
/// International feet, 0.3048 m exactly.
constexpr Length feet(double x) { return x * 0.3048 * si::metre; }
constexpr Length inches(double x) { return x * 0.0254 * si::metre; }
constexpr Area square_millimetres(double x) { return x * 1e-6 * si::square_metre; }
/// The area of a circle one mil (0.0254 mm) across, exactly π/4 · (25.4 µm)².
constexpr Area circular_mils(double x) { return x * 5.06707479097497751e-10 * si::square_metre; }
constexpr Volume litres(double x) { return x * 1e-3 * si::cubic_metre; }
constexpr Duration seconds(double x) { return x * si::second; }
constexpr Duration minutes(double x) { return x * 60.0 * si::second; }
constexpr Duration hours(double x) { return x * 3600.0 * si::second; }
inline constexpr Duration whole_day = hours(24.0);
constexpr Mass kilograms(double x) { return x * si::kilogram; }
constexpr Angle radians(double x) { return x * si::radian; }
constexpr Angle degrees(double x) { return x * 0.017453292519943295769 * si::radian; }
constexpr Ratio ratio(double x) { return x; }
constexpr Ratio percent(double x) { return x / 100.0; }
constexpr TemperatureRise kelvins(double x) { return x * si::kelvin; }
constexpr Temperature absolute_kelvins(double x) { return x * units::absolute<si::temperature>(); }
constexpr Temperature celsius(double x) { return absolute_kelvins(x + 273.15); }
constexpr Temperature fahrenheit(double x) { return celsius((x - 32.0) / 1.8); }
constexpr ResistancePerLength ohms_per_kilometre(double x) { return x * 1e-3 * si::ohm / si::metre; }
/// Ohms per thousand feet, as American wire tables print it.
constexpr ResistancePerLength ohms_per_1000_feet(double x) { return x / 304.8 * si::ohm / si::metre; }
constexpr MassPerLength grams_per_metre(double x) { return x * 1e-3 * si::kilogram / si::metre; }
constexpr MassPerLength pounds_per_1000_feet(double x) { return x * 0.45359237 / 304.8 * si::kilogram / si::metre; }
constexpr PerKelvin per_kelvin(double x) { return x / si::kelvin; }
constexpr VoltagePerKelvin millivolts_per_kelvin(double x) { return x * 1e-3 * si::volt / si::kelvin; }
constexpr ResistanceTimesCharge ohm_ampere_hours(double x) { return x * 3600.0 * si::ohm * si::coulomb; }
constexpr ChargeRate per_hour(double x) { return x / 3600.0 * si::hertz; }
constexpr JouleIntegral ampere_squared_seconds(double x) { return x * si::ampere * si::ampere * si::second; }
constexpr ThermalConductance watts_per_kelvin(double x) { return x * si::watt / si::kelvin; }
constexpr SpecificHeat kilojoules_per_kilogram_kelvin(double x) {
    return x * 1e3 * si::joule / si::kilogram / si::kelvin;
}
constexpr EnergyPerMass kilojoules_per_kilogram(double x) { return x * 1e3 * si::joule / si::kilogram; }
constexpr Irradiance watts_per_square_metre(double x) { return x * si::watt / si::square_metre; }
constexpr Irradiation megajoules_per_square_metre(double x) { return x * 1e6 * si::joule / si::square_metre; }

// ---- readers --------------------------------------------------------------------------------------------------------

constexpr double in_amperes(Current q) { return q.value(); }
constexpr double in_volts(Voltage q) { return q.value(); }
constexpr double in_millivolts(Voltage q) { return q.value() * 1e3; }
constexpr double in_ohms(Resistance q) { return q.value(); }
constexpr double in_milliohms(Resistance q) { return q.value() * 1e3; }
constexpr double in_watts(Power q) { return q.value(); }
constexpr double in_joules(Energy q) { return q.value(); }
constexpr double in_watt_hours(Energy q) { return q.value() / 3600.0; }
constexpr double in_ampere_hours(Charge q) { return q.value() / 3600.0; }
constexpr double in_metres(Length q) { return q.value(); }
constexpr double in_millimetres(Length q) { return q.value() * 1e3; }
constexpr double in_square_millimetres(Area q) { return q.value() * 1e6; }
constexpr double in_litres(Volume q) { return q.value() * 1e3; }
constexpr double in_seconds(Duration q) { return q.value(); }
constexpr double in_minutes(Duration q) { return q.value() / 60.0; }
constexpr double in_hours(Duration q) { return q.value() / 3600.0; }
constexpr double in_kilograms(Mass q) { return q.value(); }
constexpr double in_degrees(Angle q) { return q.value() / 0.017453292519943295769; }
constexpr double in_ratio(Ratio q) { return q.value(); }
constexpr double in_percent(Ratio q) { return q.value() * 100.0; }
constexpr double in_kelvins(TemperatureRise q) { return q.value(); }
constexpr double in_celsius(Temperature q) { return q.value() - 273.15; }
constexpr double in_ohms_per_kilometre(ResistancePerLength q) { return q.value() * 1e3; }
constexpr double in_grams_per_metre(MassPerLength q) { return q.value() * 1e3; }
constexpr double in_millivolts_per_kelvin(VoltagePerKelvin q) { return q.value() * 1e3; }
constexpr double in_ohm_ampere_hours(ResistanceTimesCharge q) { return q.value() / 3600.0; }
constexpr double in_per_hour(ChargeRate q) { return q.value() * 3600.0; }
constexpr double in_watts_per_kelvin(ThermalConductance q) { return q.value(); }
constexpr double in_kilojoules_per_kilogram_kelvin(SpecificHeat q) { return q.value() / 1e3; }
constexpr double in_kilojoules_per_kilogram(EnergyPerMass q) { return q.value() / 1e3; }
constexpr double in_watts_per_square_metre(Irradiance q) { return q.value(); }
constexpr double in_megajoules_per_square_metre(Irradiation q) { return q.value() / 1e6; }
constexpr double in_radians(Angle q) { return q.value(); }
constexpr double in_ampere_squared_seconds(JouleIntegral q) { return q.value(); }

/// Every percentage of a drop is of this voltage, whatever the battery reads.
inline constexpr Voltage nominal_voltage = volts(12.0);

/// The kind of a difference of two `Q`: a rise for temperatures, else `Q` itself.
template <class Q>
struct DifferenceOf {
    using type = Q;
};
template <>
struct DifferenceOf<Temperature> {
    using type = TemperatureRise;
};
template <class Q>
using Difference = typename DifferenceOf<Q>::type;

}  // namespace voltwright

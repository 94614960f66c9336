#pragma once

#include "voltwright/units/quantities.hpp"

namespace voltwright {

/// How much heating effect a copper conductor takes for each area squared. Its root, in A·√s/mm², is the k of the
/// installation standards.
using JouleIntegralPerArea2 = units::quantity<units::divide_typeof_helper<
    units::multiply_typeof_helper<units::multiply_typeof_helper<si::current, si::current>::type, si::time>::type,
    units::multiply_typeof_helper<si::area, si::area>::type>::type>;

/// What lifts copper by its own temperature above −234.5 °C, where by its law it would not resist: (226 A·√s/mm²)².
/// Source: IEC 60364-5-54 and BS 7671, from memory.
inline constexpr JouleIntegralPerArea2 copper_heat =
    226.0 * 226.0 * ampere_squared_seconds(1.0) / (square_millimetres(1.0) * square_millimetres(1.0));
/// A temperature above −234.5 °C: copper's resistance is in proportion to it.
constexpr TemperatureRise above_no_resistance(Temperature t) { return t - celsius(0) + kelvins(234.5); }

/// k² of copper between two temperatures.
///
///     k = 226 A·√s/mm²·√(ln((234.5 °C + T_f)/(234.5 °C + T_i)))
///
/// T_i   at the start     T_f   that it may reach. Nothing when it starts at its limit or above.
///
/// Source: IEC 60364-5-54 and BS 7671; no heat is given off, which holds for 5 s and only overestimates after that.
JouleIntegralPerArea2 copper_k_squared(Temperature start, Temperature limit);

/// Whether a conductor stands what a fuse lets through.
///
///     I²·t ≤ k²·S²
///
/// S   area of the thinner conductor     I²·t   the most that the fuse lets through     k   see copper_k_squared()
///
/// Source: IEC 60364-4-43.
struct Withstand {
    Area area;
    Temperature start, limit;
    Current fault;
    Duration time;
    JouleIntegral let_through;
    JouleIntegral allowed;

    [[nodiscard]] bool holds() const { return let_through <= allowed; }
};

Withstand withstand(Area area, Temperature start, Temperature limit, Current fault, Duration time);

}  // namespace voltwright

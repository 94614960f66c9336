#pragma once

#include "voltwright/energy/kinetic_battery.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>

namespace voltwright {

/// What a battery delivers when a constant current empties it in T, by Peukert's law in the form of a rated battery.
///
///     Q = C·(T/H)^(1 − 1/p)
///
/// C   capacity when discharged over H     H   the hours that it is rated over     p   exponent, 1 and above
Charge peukert_capacity(Charge capacity, Duration rated_over, double exponent, Duration over);

/// What the kinetic battery delivers when a constant current empties it in T.
///
///     Q = Q_max·c/(c + (1 − c)·φ(k·T))        φ(x) = (1 − e⁻ˣ)/x
///
/// Q_max   the whole content, `whole` times the 20-hour capacity
///
/// c·Q_max at once, Q_max given for ever. The same as the paper's Q_max·k·c·T/(1 − e⁻ᵏᵀ + c·(k·T − 1 + e⁻ᵏᵀ)).
Charge kinetic_charge(const KineticParameters& kinetics, Charge capacity_20_h, Duration over);

/// Exactly through the charges delivered at three rates.
///
///     (1/Q₁ − 1/Q₅)/(1/Q₅ − 1/Q₂₀) = (φ(k) − φ(5·k))/(φ(5·k) − φ(20·k))        k per hour
///
/// The right side rises with k from 4/15 to 16/3, so there is at most one k; c and Q_max follow from it. All charge is
/// available when the three are the same to a millionth. Empty when no kinetic battery does it: a charge that is nothing,
/// that does not fall from the 20 h to the 1 h rate, or that falls between two of the rates alone.
std::optional<KineticParameters> fit_kinetics(Charge at_20_h, Charge at_5_h, Charge at_1_h);

/// The kinetic battery that meets Peukert's law at the 20, 5 and 1 h rates; for an exponent of 1 all charge is available.
/// Exponents to 3.
KineticParameters kinetics_of_exponent(double exponent);

}  // namespace voltwright

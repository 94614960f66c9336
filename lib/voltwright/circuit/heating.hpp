#pragma once

#include "voltwright/units/quantities.hpp"

#include <optional>

namespace voltwright {

/// A copper conductor that takes up heat as one body and gives it off to what surrounds it.
///
///     C'·dT/dt = I²·R'(T) − G'·(T − T_around)        R'(T) in proportion to T + 234.5 °C
///
/// C'   heat taken up per kelvin, of its copper alone     G'   heat given off per kelvin, from its ampacity: there both
///                                                             are equal at the rating of its insulation
///
/// One body is cautious for seconds and minutes: insulation takes up heat too (about 1.4 times the time constant with
/// polyvinyl chloride, worked out), and gives off more the hotter it is. Without an ampacity it gives off none: the
/// adiabatic withstand of IEC 60364-4-43. Source: a heat balance; the copper's figures are those within k, see
/// copper_k_squared().
struct HeatedConductor {
    Area area;
    Temperature rated;      ///< of its insulation
    Temperature reference;  ///< surroundings in which its ampacity is printed
    Current ampacity;       ///< printed, with its bundle counted; nothing: it gives off no heat
    Temperature around;
};

/// How soon it follows a current.
///
///     τ = C'·(T_rated − T_ref)/(I_ref²·R'(T_rated)) = (226·S)²·(T_rated − T_ref)/(I_ref²·(T_rated + 234.5 °C))
///
/// S in mm². Empty without an ampacity. Source: the heat balance of HeatedConductor.
std::optional<Duration> time_constant(const HeatedConductor& conductor);

/// How hot a current makes it within a time.
///
///     T(t) + 234.5 °C = θ₀ + (a·θ₀ + θ_around/τ)·(e^(a·t) − 1)/a        a = I²/(226·S)² − 1/τ,  θ = T + 234.5 °C
///
/// At most where copper melts. Source: the solution of the heat balance of HeatedConductor; without heat given off it is
/// the law of copper_k_squared().
Temperature heated(const HeatedConductor& conductor, Temperature start, Current current, Duration time);

/// Where it settles with a current that never ends; at most where copper melts, as its resistance grows with its heat.
Temperature settled(const HeatedConductor& conductor, Current current);

/// By how much a current that comes and goes may exceed one that lasts, for the same greatest temperature.
///
///     f = √((1 − e^(−t_cycle/τ))/(1 − e^(−t_on/τ)))
///
/// t_on   how long it flows     t_cycle   from one start to the next
///
/// Its limits: 1/√(t_on/t_cycle) where both are short against τ, the duty factor of welding cable; 1 where t_on is the
/// whole cycle or long against τ. The resistance is that at the greatest temperature, a cautious choice.
/// Source: the heat balance of HeatedConductor with a constant resistance.
Ratio short_time_factor(Duration time_constant, Duration on, Duration cycle);

}  // namespace voltwright

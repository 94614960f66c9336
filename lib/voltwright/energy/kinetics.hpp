#pragma once

#include "voltwright/units/quantities.hpp"

#include <optional>

namespace voltwright {

/// How long a battery lasts at a constant current, by Peukert's law in the form of a rated battery.
///
///     t = H·(C/(I·H))^p
///
/// C   capacity when discharged over H        H   the hours that it is rated over
/// p   exponent, 1 and above                  I   current, above nothing
///
/// The law as printed: below the rated current it answers more than the rated charge. Source: Peukert's law; in its
/// one-ampere form, t = C₁/Iᵖ, C₁ is the capacity at 1 A and not the rated one.
Duration peukert_time(Charge capacity, Duration rated_over, double exponent, Current current);

/// The same, and below the rated current no more than the rated charge: at most C/I. For a quick answer; what is
/// stepped through a trip is the kinetic battery below, which has its own bound.
Duration capped_peukert_time(Charge capacity, Duration rated_over, double exponent, Current current);

/// What a battery delivers when a constant current empties it in T: Peukert's law solved for the charge.
///
///     Q = C·(T/H)^(1 − 1/p)
Charge peukert_capacity(Charge capacity, Duration rated_over, double exponent, Duration over);

/// A battery as two wells: loads draw on the available one, the bound one follows. A battery whose charge does not
/// depend on the current has one well: `available` is 1 and `rate` nothing.
///
///     dy₁/dt = −I + k·c·(1 − c)·(h₂ − h₁)        h₁ = y₁/c
///     dy₂/dt =    − k·c·(1 − c)·(h₂ − h₁)        h₂ = y₂/(1 − c)
///
/// y₁   charge in the available well     y₂   charge in the bound well     I   current out, negative when charging
///
/// Source: Manwell and McGowan, Solar Energy 50(5), 1993, 399-405; some papers write k for k·c·(1 − c). All that
/// follows is the exact solution for a constant current: a step may be of any length.
struct Kinetics {
    Ratio available;  ///< c, share of the available well
    ChargeRate rate;  ///< k, how fast the wells level out
    Ratio whole;      ///< all that both wells hold when full, over the 20-hour capacity
};

/// What the battery delivers when a constant current empties it in T.
///
///     Q = Q_max·c/(c + (1 − c)·φ(k·T))        φ(x) = (1 − e⁻ˣ)/x
///
/// Q_max   the whole content, `whole` times the 20-hour capacity
///
/// c·Q_max at once, Q_max given for ever. The same as the paper's Q_max·k·c·T/(1 − e⁻ᵏᵀ + c·(k·T − 1 + e⁻ᵏᵀ)).
Charge kinetic_charge(const Kinetics& kinetics, Charge capacity_20_h, Duration over);

/// Exactly through the charges delivered at three rates.
///
///     (1/Q₁ − 1/Q₅)/(1/Q₅ − 1/Q₂₀) = (φ(k) − φ(5·k))/(φ(5·k) − φ(20·k))        k per hour
///
/// The right side rises with k from 4/15 to 16/3, so there is at most one k; c and Q_max follow from it. One well when
/// the three charges are the same to a millionth. Empty when no two wells do it: a charge that is nothing, that does
/// not fall from the 20 h to the 1 h rate, or that falls between two of the rates alone.
std::optional<Kinetics> fit_kinetics(Charge at_20_h, Charge at_5_h, Charge at_1_h);

/// The two wells that meet Peukert's law at the 20, 5 and 1 h rates; one well for an exponent of 1. Exponents to 3.
Kinetics kinetics_of_exponent(double exponent);

/// What is in the two wells.
struct Wells {
    Charge available, bound;
};

Wells full_wells(const Kinetics& kinetics, Charge whole);
/// Rested, so that both wells stand level; `soc` is the share of the whole content.
Wells wells_at(const Kinetics& kinetics, Charge whole, Ratio soc);

/// The wells after a constant current has flowed for a while.
///
///     y₁′ = y₁·r + c·y₀·(1 − r) − I·Δt·(φ + c·(1 − φ))        y₂′ = y₀ − I·Δt − y₁′
///
/// y₀   y₁ + y₂     r   exp(−k·Δt)     φ   (1 − r)/(k·Δt)
///
/// Nothing is held back: the caller asks time_to_empty() or the largest currents first.
Wells rested_step(Wells wells, const Kinetics& kinetics, Current out, Duration over);

/// The current that empties the available well just at the end.
Current largest_discharge(Wells wells, const Kinetics& kinetics, Duration over);
/// The current that fills the available well just at the end; negative, for it flows in.
Current largest_charge(Wells wells, const Kinetics& kinetics, Charge whole, Duration over);

/// When the available well is first empty; at once when there is nothing in it. Empty when no current flows out.
std::optional<Duration> time_to_empty(Wells wells, const Kinetics& kinetics, Current out);

}  // namespace voltwright

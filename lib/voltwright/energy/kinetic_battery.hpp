#pragma once

#include "voltwright/units/quantities.hpp"

namespace voltwright {

/// The kinetic battery model: loads draw on the available charge, the bound charge follows. A battery whose charge does
/// not depend on the current has available charge alone: `available` is 1 and `rate` nothing.
///
///     dy₁/dt = −I + k·c·(1 − c)·(h₂ − h₁)        h₁ = y₁/c
///     dy₂/dt =    − k·c·(1 − c)·(h₂ − h₁)        h₂ = y₂/(1 − c)
///
/// y₁   available charge     y₂   bound charge     I   current out, negative when charging
///
/// Source: Manwell and McGowan, Solar Energy 50(5), 1993, 399-405; some papers write k for k·c·(1 − c).
struct KineticParameters {
    Ratio available;  ///< c, share of the charge that is available
    ChargeRate rate;  ///< k, how fast available and bound charge come to one level
    Ratio whole;      ///< all charge when full, over the 20-hour capacity
};

/// Available and bound charge.
struct KineticState {
    Charge available, bound;
};

/// Available and bound charge of a rested battery, both at one level; `soc` is the share of all its charge, `whole`.
KineticState kinetic_state_at(const KineticParameters& kinetics, Charge whole, Ratio soc);

/// A segment of the levels of the available charge, and the current into the battery at both of its ends: in between it
/// is linear. A current that is drawn is negative.
struct LinearSegment {
    Ratio low, high;
    Current at_low, at_high;
};

/// Where a battery is after a step.
struct KineticStep {
    KineticState state;
    Duration took;
    Duration level_time;  ///< integral of the available charge's level over that time
};

/// The level of the available charge: 0 … 1.
Ratio level(const KineticState& state, const KineticParameters& kinetics, Charge whole);

/// Advances a battery by `most`, or until its level leaves the segment.
///
///     dy1/dt = I(h1) − k·[(1 − c)·y1 − c·y2]      I(h1) = a + b·y1
///     dy2/dt =         k·[(1 − c)·y1 − c·y2]      h1 = y1/(c·Q)
///
/// y1, y2   available and bound charge          c, k   the battery's kinetic parameters
/// Q        both together when full, `whole`    a, b   from the ends of the segment
///
/// A linear system of two, so exact: y(t) = y(0) + Φ(t)·y'(0), Φ(t) = ∫ exp(M·s) ds, by the two eigenvalues of M. With
/// b = 0 it is the step of the kinetic battery model at constant current. The level has one turning point at most, so
/// a segment that it leaves and comes back to is not overlooked.
///
/// Source: Manwell & McGowan 1993 for the model; that the current falls in proportion as the level rises is the
/// constant-voltage phase of charging, Ohm's law.
KineticStep advance(const KineticState& state, const KineticParameters& kinetics, Charge whole,
                    const LinearSegment& segment, Duration most);

/// How long until the battery holds no more than `total`: nothing when it does not now, `most` when it is later.
Duration time_to_total(const KineticState& state, const KineticParameters& kinetics, Charge whole,
                       const LinearSegment& segment, Charge total, Duration most);

}  // namespace voltwright

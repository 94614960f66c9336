#pragma once

#include "voltwright/energy/kinetics.hpp"

namespace voltwright {

/// Levels of the available well, and the current that flows into it at both ends: in between it is linear. A current
/// that is drawn is negative.
struct Stretch {
    Ratio low, high;
    Current at_low, at_high;
};

/// Where the wells are afterwards.
struct Moved {
    Wells wells;
    Duration took;
    Duration level_time;  ///< the level of the available well, summed over that time
};

/// The level of the available well: 0 … 1.
Ratio level(const Wells& wells, const Kinetics& kinetics, Charge whole);

/// Moves both wells on for `most`, or until the level leaves the stretch.
///
///     dy1/dt = I(h1) − k·[(1 − c)·y1 − c·y2]      I(h1) = a + b·y1
///     dy2/dt =         k·[(1 − c)·y1 − c·y2]      h1 = y1/(c·Q)
///
/// y1, y2   charge in the available and the bound well     c, k   the battery's kinetics
/// Q        charge of both when full                        a, b   from the ends of the stretch
///
/// A linear system of two, so exact: y(t) = y(0) + Φ(t)·y'(0), Φ(t) = ∫ exp(M·s) ds, by the two eigenvalues of M. With
/// b = 0 it is the step of the kinetic battery model at constant current. The level has one turning point at most, so
/// a stretch that it leaves and comes back to is not overlooked.
///
/// Source: Manwell & McGowan 1993 for the wells; that the current falls in proportion as the level rises is the
/// constant-voltage phase of charging, Ohm's law.
Moved move_wells(const Wells& wells, const Kinetics& kinetics, Charge whole, const Stretch& stretch, Duration most);

/// How long until both wells together hold no more than `total`: nothing when they do not now, `most` when it is later.
Duration time_to_total(const Wells& wells, const Kinetics& kinetics, Charge whole, const Stretch& stretch, Charge total,
                       Duration most);

}  // namespace voltwright

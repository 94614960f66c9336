#pragma once

#include "voltwright/provenance/cited.hpp"
#include "voltwright/provenance/source.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// How long a fuse lets a current flow: never sooner than the least time, never later than the most.
///
///     t = t₁·(I/I₁)^p        p = ln(t₂/t₁)/ln(I₂/I₁)        between two printed points
///     t = t₁·(I₁/I)²                                        beyond the last: constant I²t
///
/// t₁, t₂   most time at the printed points below and above     I₁, I₂   their multiples of the rating, as currents
///
/// The least time goes through points of its own in the same way. Below the first multiple at which the fuse must clear
/// there is no most time; below the first that is printed the least time is that one's.
///
/// Source: the time limits of the family, with the standing of its rows. That the points are joined by straight lines on
/// logarithmic paper is how such limits are drawn; constant I²t is the adiabatic limit, and may only overestimate the most
/// time of a fuse whose I²t still falls. Holds at 23 °C and from a cold start: a fuse that has carried current for long
/// clears sooner, so the most time is safe, while a least time that is cut fine is not.
struct FuseTime {
    Current rating;
    Current current;
    Duration at_least;
    std::optional<Duration> at_most;              ///< empty: it need not clear so small a current at all
    std::optional<Current> printed_current = {};  ///< of the most time, at the printed point below
    std::optional<Duration> printed_time = {};
    std::optional<Current> next_current = {};  ///< at the one above; empty beyond the last
    std::optional<Duration> next_time = {};
    Source source = {};
};

/// Empty when nothing is known of the family.
std::optional<FuseTime> fuse_time(const Tables& tables, std::string_view family, Current rating, Current current);

/// The least current that is cleared for sure within a time: the inverse of the most time. Empty when nothing is known of
/// the family, and for no time at all.
std::optional<Current> surely_clears(const Tables& tables, std::string_view family, Current rating, Duration within);

/// The least current that it must clear at all. Empty when nothing is known of the family.
std::optional<Current> first_cleared(const Tables& tables, std::string_view family, Current rating);

/// What a fuse may let through at a current, I²·t with the most time. Empty when it need not clear, or is not known.
std::optional<JouleIntegral> let_through(const Tables& tables, std::string_view family, Current rating,
                                         Current current);

/// The current between two at which a fuse may let through most. It is one of the two, or a printed point between them:
/// where the limits fall less than with the square of the current, I²t rises (type SF51 from 2 to 3.5 times its rating).
/// Empty when the fuse need not clear the lower of the two, or is not known.
std::optional<FuseTime> most_let_through(const Tables& tables, std::string_view family, Current rating, Current lowest,
                                         Current highest);

/// Whether a fuse lets a short current pass: never sooner than it lasts. Of a family of which nothing is known no more is
/// promised than its rating. Of a pulse that is no rectangle, its peak for as long as it lasts is the cautious reading.
bool rides_through(const Tables& tables, std::string_view family, Current rating, Current current, Duration lasts);

struct FuseInPlace {
    std::string_view family;
    Current rating;
};

/// Whether at a fault the fuse behind has cleared before the one in front begins to: its most time is below the other's
/// least. Empty when one of them is not known.
std::optional<bool> is_selective(const Tables& tables, FuseInPlace in_front, FuseInPlace behind, Current fault);

// ---- pulses ---------------------------------------------------------------------------------------------------------

/// I²t of a current that falls or rises in a straight line from one value to another.
///
///     (i₁² + i₁·i₂ + i₂²)·t/3
///
/// The same twice: a rectangle; to nothing: a third of it. Source: the integral; printed in a fuse maker's guide (read).
JouleIntegral ramp_let_through(Current first, Current last, Duration time);
/// Half a sine: i²·t/2.
JouleIntegral half_sine_let_through(Current peak, Duration time);
/// Falling exponentially to nothing: i²·τ/2.
JouleIntegral exponential_let_through(Current peak, Duration time_constant);

/// What a fuse must stand to survive a pulse that comes again and again.
///
///     W_melt ≥ W_p/s
///
/// W_melt   melting I²t of the fuse, from its maker     W_p   I²t of one pulse
/// s        the share that so many pulses may have, of the row for as many or the next more
///
/// Holds for pulses so far apart that the link cools between them. Source: a fuse maker's guide (read).
struct PulseEndurance {
    JouleIntegral pulse;
    int pulses;
    Cited<Ratio> share;
    JouleIntegral melting;  ///< at least

    /// Does a fuse of this melting I²t?
    [[nodiscard]] bool survived_by(JouleIntegral one) const { return one >= melting; }
};

/// Empty for more pulses than anybody printed.
std::optional<PulseEndurance> pulse_endurance(const Tables& tables, JouleIntegral pulse, int pulses);

}  // namespace voltwright

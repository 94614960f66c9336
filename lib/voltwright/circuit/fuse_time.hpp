#pragma once

#include "voltwright/tables/tables.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// How long a fuse lets a current flow.
struct FuseTime {
    Duration at_least;
    std::optional<Duration> at_most;  ///< empty: it need not clear so small a current at all
};

/// The least and the most time until a fuse has cleared a current.
///
///     t = t₁·(m/m₁)^p        p = ln(t₂/t₁)/ln(m₂/m₁)        m = I/I_n, between the printed multiples m₁ and m₂
///     t = t_l·(m_l/m)²                                      beyond the last, m_l: constant I²t
///
/// Below the first multiple at which it must clear there is no most time; below the first printed one the least time is
/// that one's. Empty when nothing is known of the family. Source: the family's time limits; that they are joined by
/// straight lines on logarithmic paper is how such limits are drawn, and constant I²t is the adiabatic limit (it may only
/// overestimate the time of a fuse whose I²t still falls).
std::optional<FuseTime> fuse_time(const Tables& tables, std::string_view family, Current rating, Current current);

/// The least current that is cleared for sure within a time: the inverse of the most time. Empty when nothing is known of
/// the family.
std::optional<Current> surely_clears(const Tables& tables, std::string_view family, Current rating, Duration within);

/// What a fuse may let through at a current, I²·t with the most time. Empty when it need not clear, or is not known.
std::optional<JouleIntegral> let_through(const Tables& tables, std::string_view family, Current rating,
                                         Current current);

/// Whether a fuse lets a short current pass: never sooner than it lasts. Of a family of which nothing is known no more is
/// promised than its rating.
bool rides_through(const Tables& tables, std::string_view family, Current rating, Current current, Duration lasts);

/// Whether at a fault the fuse behind has cleared before the one in front begins to: its most time is below the other's
/// least. Empty when one of them is not known.
struct FuseInPlace {
    std::string_view family;
    Current rating;
};
std::optional<bool> is_selective(const Tables& tables, FuseInPlace in_front, FuseInPlace behind, Current fault);

// ---- pulses ---------------------------------------------------------------------------------------------------------

/// I²t of a current that falls or rises in a straight line from one value to another.
///
///     (i₁² + i₁·i₂ + i₂²)·t/3
///
/// The same twice: a rectangle; to nothing: a third of it. Source: the integral; printed in makers' fuse guides (read).
JouleIntegral ramp_let_through(Current first, Current last, Duration time);
/// Half a sine: i²·t/2.
JouleIntegral half_sine_let_through(Current peak, Duration time);
/// Falling exponentially to nothing: i²·τ/2.
JouleIntegral exponential_let_through(Current peak, Duration time_constant);

}  // namespace voltwright

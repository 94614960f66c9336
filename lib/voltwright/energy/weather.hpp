#pragma once

#include "voltwright/tables/surroundings.hpp"
#include "voltwright/units/quantities.hpp"

namespace voltwright {

/// By the clock, where no latitude is known.
inline constexpr Duration usual_sunrise = hours(6.0), usual_sunset = hours(18.0);

/// A day's air. Made by day_air(), which keeps sunrise and sunset where the profile can use them.
struct DayAir {
    Temperature low, high;
    Duration sunrise, sunset;  ///< by the clock, local sun time
    /// How long after the middle of the day the high is reached, and how far the air falls to the next low over a night,
    /// as an exponent: Parton and Logan 1981 for air at 150 cm.
    Duration high_after_noon = hours(1.86);
    double night_decay = 2.20;
};

/// With the usual sunrise and sunset.
DayAir day_air(Temperature low, Temperature high);
/// With the sun's own times. The profile needs a day and a night: where the sun is up for less than 4 h or more than 20 h
/// (beyond the polar circles) it is taken as up for that long around the same noon. A cautious choice of ours: it keeps
/// the day's low and high.
DayAir day_air(Temperature low, Temperature high, Duration sunrise, Duration sunset);

/// Air temperature by the clock.
///
///     by day     T = L + (H − L)·sin(π·m/(D + 2·a))
///     by night   T = L' + (T_s − L')·(exp(−b·n/Z) − exp(−b))/(1 − exp(−b))
///
/// L, H   the day's low, at sunrise, and its high, a after the middle of the day     L'   the coming low
/// D, Z   length of the day and of the night that follows                             T_s  at sunset
/// m, n   time since sunrise, since sunset                                            a, b as in DayAir
///
/// `clock` is counted from the midnight before `today`, from today's sunrise to tomorrow's (so beyond 24 h). Before
/// today's sunrise it is the end of a night between two days like today: a day repeated has no break. Days that differ:
/// the function of three below.
///
/// Source: Parton and Logan 1981, Agricultural Meteorology 23, 205-216; equations and a = 1.86 h, b = 2.20 for air at 150
/// cm read in an open library's documentation, not in the paper. Two departures: the low is reached at sunrise, where the
/// paper has 0.17 h before it; and the night is displaced so that it ends at the low, where the paper leaves a step.
Temperature air_temperature(const DayAir& today, const DayAir& tomorrow, Duration clock);
/// The same with the day before: without a break from one day to the next, `clock` from 0 to 24 h.
Temperature air_temperature(const DayAir& yesterday, const DayAir& today, const DayAir& tomorrow, Duration clock);

/// What surrounds a thing: the air and what its place adds.
///
///     T = T_air + always + driving              while the engine runs
///     T = T_air + always + sun·share            while it does not
///
/// `share` is the sun's, of full sun; in what is closed the one that has come through, of lagged_share().
Temperature around_at(const SurroundingsRow& place, Temperature air, bool engine_running, Ratio sun_share);

/// The sun's share that has come through to the air of a closed vehicle, where it stays `share` for a time.
///
///     s' = u + (s − u)·exp(−dt/τ)                     at the end
///     s̄  = u + (s − u)·(τ/dt)·(1 − exp(−dt/τ))        in the mean
///
/// s    before, nothing where it has just been driven     u   `share`
/// τ    the vehicle's time constant: data/lags.toml
///
/// After an hour of full sun it is some 24 K above the air outside, by the afternoon 36 K: what was measured, and worked out from it,
/// stands in data/surroundings.toml and data/lags.toml. Source: Newton's law of cooling.
struct LaggedShare {
    Ratio end, mean;
};
LaggedShare lagged_share(Ratio before, Ratio share, Duration dt, Duration time_constant);

/// A body's temperature after a time in surroundings that stay as they are.
///
///     T' = T_around + (T − T_around)·exp(−dt/τ)
///
/// τ   the body's time constant: data/lags.toml
///
/// Exact for a body of one temperature. Source: Newton's law of cooling.
Temperature lagged(Temperature body, Temperature around, Duration dt, Duration time_constant);

/// The mean of the sun's share over a part of the day, where no latitude is known.
///
///     s = max(0, sin(π·(t − 6 h)/12 h))
///
/// Full sun at noon, none before 06:00 and after 18:00. So rises the sun's height at the equator when day and night are
/// equal. `from` to `to` by the clock, also over midnight (to beyond 24 h); of equal ones the share at that time.
Ratio usual_sun_share(Duration from, Duration to);

}  // namespace voltwright

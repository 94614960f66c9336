#include "voltwright/energy/weather.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace voltwright {

namespace {

constexpr Duration shortest_day = hours(4.0), longest_day = hours(20.0);

Temperature by_day(const DayAir& day, Duration clock) {
    const Duration half_wave = day.sunset - day.sunrise + 2.0 * day.high_after_noon;
    const Ratio phase = (clock - day.sunrise) / half_wave;
    return day.low + (day.high - day.low) * std::sin(std::numbers::pi * in_ratio(phase));
}

/// Hours of sun, weighted by its share, from the first midnight on.
Duration sun_until(Duration clock) {
    const double days = std::floor(in_ratio(clock / whole_day));
    const Duration time = std::clamp(clock - days * whole_day, usual_sunrise, usual_sunset);
    const Duration light = usual_sunset - usual_sunrise;
    const double angle = std::numbers::pi * in_ratio((time - usual_sunrise) / light);
    return light / std::numbers::pi * (2.0 * days + 1.0 - std::cos(angle));
}

}  // namespace

DayAir day_air(Temperature low, Temperature high) { return {low, high, usual_sunrise, usual_sunset}; }

DayAir day_air(Temperature low, Temperature high, Duration sunrise, Duration sunset) {
    const Duration noon = 0.5 * (sunrise + sunset);
    const Duration light = std::clamp(sunset - sunrise, shortest_day, longest_day);
    return {low, high, noon - 0.5 * light, noon + 0.5 * light};
}

Temperature air_temperature(const DayAir& today, const DayAir& tomorrow, Duration clock) {
    if (clock < today.sunrise) return air_temperature(today, today, clock + whole_day);
    if (clock <= today.sunset) return by_day(today, clock);
    const Temperature at_sunset = by_day(today, today.sunset);
    const Duration night = whole_day + tomorrow.sunrise - today.sunset;
    const double passed = std::min(in_ratio((clock - today.sunset) / night), 1.0);
    const double end = std::exp(-today.night_decay);
    const double left = (std::exp(-today.night_decay * passed) - end) / (1.0 - end);
    return tomorrow.low + (at_sunset - tomorrow.low) * left;
}

Temperature air_temperature(const DayAir& yesterday, const DayAir& today, const DayAir& tomorrow, Duration clock) {
    return clock < today.sunrise ? air_temperature(yesterday, today, clock + whole_day)
                                 : air_temperature(today, tomorrow, clock);
}

Temperature around_at(const SurroundingsRow& place, Temperature air, bool engine_running, Ratio sun_share) {
    return air + place.always + (engine_running ? place.driving : place.sun * sun_share);
}

Temperature lagged(Temperature body, Temperature around, Duration dt, Duration time_constant) {
    return body + (body - around) * std::expm1(-in_ratio(dt / time_constant));
}

LaggedShare lagged_share(Ratio before, Ratio share, Duration dt, Duration time_constant) {
    const double left = -std::expm1(-in_ratio(dt / time_constant));
    const double mean = in_ratio(time_constant / dt) * left;
    return {share + (before - share) * (1.0 - left), share + (before - share) * mean};
}

Ratio usual_sun_share(Duration from, Duration to) {
    if (from < to) return (sun_until(to) - sun_until(from)) / (to - from);
    const Duration time =
        std::clamp(from - std::floor(in_ratio(from / whole_day)) * whole_day, usual_sunrise, usual_sunset);
    return std::sin(std::numbers::pi * in_ratio((time - usual_sunrise) / (usual_sunset - usual_sunrise)));
}

}  // namespace voltwright

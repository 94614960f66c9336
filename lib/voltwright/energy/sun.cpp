#include "voltwright/energy/sun.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace voltwright {

namespace {

constexpr double pi = std::numbers::pi;
constexpr Duration noon = hours(12.0);
constexpr Irradiance solar_constant = 0.0820 * megajoules_per_square_metre(1.0) / minutes(1.0);  // FAO-56, eq. 21
constexpr Length sea_level = metres(0.0);

/// A direction of length one; a mean of directions is a little shorter.
struct Direction {
    double east, north, up;
};

double hour_angle(Duration sun_time) { return 2.0 * pi * in_ratio((sun_time - noon) / whole_day); }

/// The part of a time during which the sun is up, as hour angles, and its share of that time.
struct Lit {
    double begin, end, share;
};

Lit lit(const DaySun& sun, Duration from, Duration to) {
    const double dusk = in_radians(sun.sunset), first = hour_angle(from), last = hour_angle(to);
    const double begin = std::clamp(first, -dusk, dusk), end = std::clamp(last, -dusk, dusk);
    if (first < last) return {begin, end, (end - begin) / (last - first)};
    return {first, first, begin == first && dusk > 0.0 ? 1.0 : 0.0};
}

/// The mean of the sun's direction between two hour angles.
Direction sun_direction(const DaySun& sun, double begin, double end) {
    const double middle = 0.5 * (begin + end), half = 0.5 * (end - begin);
    const double spread = half > 0.0 ? std::sin(half) / half : 1.0;
    const double cos_hour = std::cos(middle) * spread, sin_hour = std::sin(middle) * spread;
    const double sin_latitude = sin(sun.latitude), cos_latitude = cos(sun.latitude);
    const double sin_declination = sin(sun.declination), cos_declination = cos(sun.declination);
    return {-cos_declination * sin_hour, cos_latitude * sin_declination - sin_latitude * cos_declination * cos_hour,
            sin_latitude * sin_declination + cos_latitude * cos_declination * cos_hour};
}

SunPosition position(const Direction& towards) {
    const double level = std::hypot(towards.east, towards.north), bearing = std::atan2(towards.east, towards.north);
    return {radians(std::atan2(level, towards.up)), radians(bearing < 0.0 ? bearing + 2.0 * pi : bearing)};
}

Irradiance outside(const DaySun& sun, const Lit& lit) {
    if (!(lit.share > 0.0)) return {};
    return solar_constant * sun.distance * std::max(sun_direction(sun, lit.begin, lit.end).up, 0.0) * lit.share;
}

}  // namespace

DaySun day_sun(Angle latitude, int day_of_year) {
    const double season = 2.0 * pi * day_of_year / 365.0;
    const Ratio distance = 1.0 + 0.033 * std::cos(season);
    const Angle declination = radians(0.409 * std::sin(season - 1.39));
    const double sunset = std::acos(std::clamp(-tan(latitude) * tan(declination), Ratio(-1.0), Ratio(1.0)));
    const double sunlit =
        sunset * sin(latitude) * sin(declination) + cos(latitude) * cos(declination) * std::sin(sunset);
    return {latitude,
            day_of_year,
            distance,
            declination,
            radians(sunset),
            whole_day * sunset / pi,
            whole_day / pi * solar_constant * distance * std::max(sunlit, 0.0)};
}

DaySun later_day(const DaySun& sun, int days) {
    const int day = (sun.day - 1 + days) % 365;
    return day_sun(sun.latitude, (day < 0 ? day + 365 : day) + 1);
}

Duration sunrise(const DaySun& sun) { return noon - 0.5 * sun.daylight; }
Duration sunset_at(const DaySun& sun) { return noon + 0.5 * sun.daylight; }

Irradiance extraterrestrial(const DaySun& sun, Duration from, Duration to) { return outside(sun, lit(sun, from, to)); }

Ratio sun_share(const DaySun& sun, Duration from, Duration to) {
    const Irradiance highest = extraterrestrial(sun, noon, noon);
    if (!(highest > Irradiance{})) return ratio(0.0);
    return extraterrestrial(sun, from, to) / highest;
}

Ratio noon_share(const DaySun& sun) { return std::min<Ratio>(extraterrestrial(sun, noon, noon) / solar_constant, 1.0); }

SunPosition sun_position(const DaySun& sun, Duration sun_time) {
    const double hour = hour_angle(sun_time);
    return position(sun_direction(sun, hour, hour));
}

SunPosition sun_position(const DaySun& sun, Duration from, Duration to) {
    const Lit up = lit(sun, from, to);
    return up.share > 0.0 ? position(sun_direction(sun, up.begin, up.end)) : sun_position(sun, 0.5 * (from + to));
}

Irradiance clear_sky(Irradiance extraterrestrial, Length above_sea) {
    return extraterrestrial * (0.75 + 2e-5 * in_metres(above_sea));
}

Ratio of_clear_sky(Ratio clearness_index) {
    const Irradiance outside = watts_per_square_metre(1);
    return std::min<Ratio>(clearness_index * (outside / clear_sky(outside, sea_level)), 1.0);
}

Ratio clearness_index_of(Ratio of_clear_sky) {
    const Irradiance outside = watts_per_square_metre(1);
    return of_clear_sky * (clear_sky(outside, sea_level) / outside);
}

Ratio diffuse_share(Ratio clearness_index) {
    const double k = clearness_index;
    if (k <= 0.22) return 1.0 - 0.09 * k;
    if (k <= 0.80) return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
    return 0.165;
}

Ratio mean_diffuse_share(Ratio clearness_index, Angle sunset) {
    constexpr Ratio least = 0.3, most = 0.8;
    const double k = std::clamp(clearness_index, least, most);
    const double share = sunset <= degrees(81.4) ? 1.391 + k * (-3.560 + k * (4.189 - 2.137 * k))
                                                 : 1.311 + k * (-3.022 + k * (3.427 - 1.821 * k));
    if (clearness_index < least) return 1.0 - (1.0 - share) * in_ratio(clearness_index / least);
    return share;
}

Angle incidence(const SunPosition& sun, Angle tilt, Angle azimuth) {
    const double cosine = cos(sun.zenith) * cos(tilt) + sin(sun.zenith) * sin(tilt) * cos(sun.azimuth - azimuth);
    return radians(std::acos(std::clamp(cosine, -1.0, 1.0)));
}

PlaneIrradiance on_plane(Irradiance beam_normal, Irradiance diffuse, Irradiance horizontal, const SunPosition& sun,
                         Angle tilt, Angle azimuth, Ratio albedo) {
    const Ratio facing = cos(incidence(sun, tilt, azimuth)), slope = cos(tilt);
    const Irradiance beam = beam_normal * std::max(facing, Ratio(0.0));
    const Irradiance sky = diffuse * (1.0 + slope) / 2.0;
    const Irradiance ground = horizontal * albedo * (1.0 - slope) / 2.0;
    return {beam, sky, ground, beam + sky + ground};
}

Temperature cell_temperature(Temperature around, Irradiance plane, TemperatureRise nominal_rise) {
    return around + nominal_rise * in_ratio(plane / watts_per_square_metre(800.0));
}

Power module_power(Power rated, Irradiance plane, Temperature cell, PerKelvin temperature_coefficient) {
    const Ratio warm = 1.0 + temperature_coefficient * (cell - celsius(25.0));
    return rated * (plane / watts_per_square_metre(1000.0)) * std::max(warm, Ratio(0.0));
}

Panel panel_from(Power rated, Angle tilt, Angle azimuth, Ratio shade, const PanelRow& panel,
                 const RegulatorRow& regulator, Ratio brought) {
    return {rated,
            tilt,
            azimuth,
            shade,
            (1.0 - panel.losses) * brought * regulator.efficiency,
            panel.nominal_rise + panel.close_to_roof,
            panel.temperature_coefficient,
            regulator.at_battery_voltage,
            panel.albedo};
}

PanelPower panel_power(const Panel& panel, const DaySun& sun, Duration from, Duration to, Temperature around,
                       Ratio clearness, ClearnessOf of) {
    const Lit up = lit(sun, from, to);
    const Irradiance above = outside(sun, up);
    const Irradiance horizontal = clear_sky(above, sea_level) * clearness;
    if (!(horizontal > Irradiance{})) return {above, clearness, {}, {}, {}, {}, {}, {}, around, {}, panel.yield, {}};

    const Ratio index = horizontal / above;
    const Ratio diffuse = of == ClearnessOf::mean_day ? mean_diffuse_share(index, sun.sunset) : diffuse_share(index);
    const SunPosition stands = position(sun_direction(sun, up.begin, up.end));
    const PlaneIrradiance falls = on_plane((1.0 - diffuse) * horizontal / cos(stands.zenith), diffuse * horizontal,
                                           horizontal, stands, panel.tilt, panel.azimuth, panel.albedo);
    const Irradiance plane = falls.total * (1.0 - panel.shade);
    const Temperature cell = cell_temperature(around, plane, panel.nominal_rise);
    Power power = module_power(panel.rated, plane, cell, panel.temperature_coefficient);
    if (panel.at_battery_voltage)
        power = std::min(power, *panel.at_battery_voltage * module_power(panel.rated, plane, cell, per_kelvin(0.0)));
    Power given = panel.yield * power;
    if (panel.most) given = std::min(given, *panel.most);
    return {above,        clearness, horizontal, diffuse, falls.beam,  falls.sky,
            falls.ground, plane,     cell,       power,   panel.yield, given};
}

}  // namespace voltwright

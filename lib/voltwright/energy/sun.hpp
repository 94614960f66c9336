#pragma once

#include "voltwright/tables/panels.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>

namespace voltwright {

// ---- the sun --------------------------------------------------------------------------------------------------------

/// The sun's day at a place.
///
///     d_r = 1 + 0.033·cos(2π·J/365)          δ = 0.409·sin(2π·J/365 − 1.39)
///     ω_s = acos(−tan φ·tan δ)               N = (24 h/π)·ω_s
///     R_a = (24 h/π)·G_sc·d_r·(ω_s·sin φ·sin δ + cos φ·cos δ·sin ω_s)
///
/// φ     latitude, south negative             J     day of the year, 1 to 366
/// d_r   one over the square of the distance to the sun, of the year's mean
/// δ     declination                          ω_s   hour angle of sunset: 0 in the polar night, π in the polar day
/// N     length of the day                    R_a   what falls on a horizontal square metre outside the air in a day
/// G_sc  solar constant, 0.0820 MJ/(m²·min)
///
/// The declination is within 1.5° of the true one, worst in October. Sunrise and sunset are those of the sun's middle
/// without refraction: at middle latitudes the day is some 7 to 18 min shorter than an almanac's.
/// Source: FAO Irrigation and Drainage Paper 56, 1998, eq. 21, 23, 24, 25 and 34.
struct DaySun {
    Angle latitude;
    int day;
    Ratio distance;
    Angle declination;
    Angle sunset;
    Duration daylight;
    Irradiation extraterrestrial;
};

DaySun day_sun(Angle latitude, int day_of_year);
/// At the same place so many days later; earlier where negative.
DaySun later_day(const DaySun& sun, int days);

// Times of the day are local sun time since midnight, 0 to 24 h: the sun is highest at 12:00. Means are over `from` to
// `to`; of equal ones, the value at that time.

/// Both at noon in the polar night, at the two midnights in the polar day.
Duration sunrise(const DaySun& sun);
Duration sunset_at(const DaySun& sun);

/// Mean power of the sun on a horizontal square metre outside the air, nothing by night.
///
///     R_a = G_sc·d_r·(sin φ·sin δ + cos φ·cos δ·(sin ω₂ − sin ω₁)/(ω₂ − ω₁))
///
/// ω₁, ω₂   hour angles of begin and end: 15° an hour from noon, not before sunrise nor after sunset
///
/// Source: FAO-56, eq. 28, 29 and 30; what is up for a part of the time counts for that part.
Irradiance extraterrestrial(const DaySun& sun, Duration from, Duration to);

/// The sun's share of its own noon of that day: for what it heats.
Ratio sun_share(const DaySun& sun, Duration from, Duration to);

/// What falls on the horizontal outside the air at noon, of what does with the sun overhead at its mean distance: how high
/// the sun of that day is, for what it heats. No more than 1.
Ratio noon_share(const DaySun& sun);

/// Where the sun stands: its angle from straight up, and its bearing from north by east, 0 to 360°.
struct SunPosition {
    Angle zenith;
    Angle azimuth;
};

SunPosition sun_position(const DaySun& sun, Duration sun_time);
/// Its mean direction while it is up; without refraction.
SunPosition sun_position(const DaySun& sun, Duration from, Duration to);

// ---- through the air, onto a plane ----------------------------------------------------------------------------------

/// Power of the sun on a horizontal square metre under a clear sky.
///
///     R_so = (0.75 + 2·10⁻⁵/m·z)·R_a        z   height above the sea
///
/// Right for a high sun; a low one it gives too much. Against Haurwitz 1945: 1 % less with the sun overhead, 5 % more
/// at 30° above the horizon, a third more at 10°; of midwinter's day 14 % more at 35° north and 29 % more at 50° north.
/// Source: FAO-56, eq. 37.
Irradiance clear_sky(Irradiance extraterrestrial, Length above_sea);

/// A clearness index, of the sun outside the air, as the share of a clear sky's sun: what weather stations' figures are for
/// this model.
///
///     c = K_T·R_a/R_so, no more than 1
///
/// Source: FAO-56, eq. 37, at sea level.
Ratio of_clear_sky(Ratio clearness_index);
/// The other way round.
Ratio clearness_index_of(Ratio of_clear_sky);

/// The share of the horizontal power that comes from the whole sky, not straight from the sun.
///
///     k ≤ 0.22    1 − 0.09·k
///     k ≤ 0.80    0.9511 − 0.1604·k + 4.388·k² − 16.638·k³ + 12.336·k⁴
///     above       0.165
///
/// k   horizontal power below the air over that outside it
///
/// Source: Erbs, Klein and Duffie 1982, Solar Energy 28, 293-302 (recalled; held to an open library's tests).
Ratio diffuse_share(Ratio clearness_index);

/// The same of a month's mean day, which is made of clear and of dull ones: less of it comes from the sky than on a single day
/// with so much sun, and a tilted panel gets more.
///
///     K ≥ 0.3    ω_s ≤ 81.4°    1.391 − 3.560·K + 4.189·K² − 2.137·K³
///                otherwise      1.311 − 3.022·K + 3.427·K² − 1.821·K³
///     below      in a straight line to 1 where nothing comes through: a choice of ours
///     above 0.8  as at 0.8
///
/// K   the month's clearness index     ω_s   hour angle of sunset
///
/// Source: Erbs, Klein and Duffie 1982, Solar Energy 28, 293-302 (recalled; held to a typical year's months).
Ratio mean_diffuse_share(Ratio clearness_index, Angle sunset);

/// Between the sun and the normal of a plane. `azimuth` is the bearing to which it tilts, from north by east.
///
///     cos θ = cos z·cos β + sin z·sin β·cos(γ_s − γ)
///
/// Source: spherical trigonometry; Duffie and Beckman, Solar Engineering of Thermal Processes, ch. 1.
Angle incidence(const SunPosition& sun, Angle tilt, Angle azimuth);

/// Power of the sun on a tilted plane.
///
///     G = I_n·max(0, cos θ) + D·(1 + cos β)/2 + H·ρ·(1 − cos β)/2
///
/// I_n   straight from the sun, on a plane that faces it     D, H   from the sky and in all, on the horizontal
/// ρ     share that the ground throws back                   β      tilt
///
/// The sky is taken as equally bright everywhere: a cautious choice. Source: Liu and Jordan 1963; Duffie and Beckman.
struct PlaneIrradiance {
    Irradiance beam, sky, ground, total;
};

PlaneIrradiance on_plane(Irradiance beam_normal, Irradiance diffuse, Irradiance horizontal, const SunPosition& sun,
                         Angle tilt, Angle azimuth, Ratio albedo);

// ---- the panel ------------------------------------------------------------------------------------------------------

/// Temperature of a panel's cells.
///
///     T_c = T_a + ΔT·G/800 W/m²        ΔT   rise at 800 W/m²: the data sheet's NOCT − 20 °C, and more close to a roof
///
/// Source: Ross 1976; IEC 61215 for the nominal operating cell temperature (NOCT).
Temperature cell_temperature(Temperature around, Irradiance plane, TemperatureRise nominal_rise);

/// Power at a panel's terminals, at its best voltage; nothing where the heat would make it negative.
///
///     P = P_r·G/1000 W/m²·(1 + γ·(T_c − 25 °C))        γ   temperature coefficient of power, negative
///
/// Source: Evans 1981, Solar Energy 27, 555-560 (recalled; held to an open library's tests); P_r by IEC 60904's standard
/// conditions.
Power module_power(Power rated, Irradiance plane, Temperature cell, PerKelvin temperature_coefficient);

/// A panel and its regulator.
struct Panel {
    Power rated;
    Angle tilt;                    ///< nothing: flat
    Angle azimuth;                 ///< bearing to which it tilts, from north by east; without meaning for a flat one
    Ratio shade;                   ///< of the sun that does not reach it
    Ratio yield;                   ///< what its losses, the cables and the regulator leave
    TemperatureRise nominal_rise;  ///< of its cells at 800 W/m²
    PerKelvin temperature_coefficient;
    std::optional<Ratio> at_battery_voltage;  ///< the most, of rated power in that sun; none: it finds the best voltage
    Ratio albedo;                             ///< share that the ground throws back
    std::optional<Power> most = {};           ///< that its regulator gives; empty: all that comes
};

/// With what the tables know of its kind. A vehicle's panel lies close to the roof: cautious for one that stands free.
/// `brought`: the share that its cables bring.
Panel panel_from(Power rated, Angle tilt, Angle azimuth, Ratio shade, const PanelRow& panel,
                 const RegulatorRow& regulator, Ratio brought = 1.0);

/// What a panel's regulator can give, on average over an hour or less.
///
///     H = c·R_so        G = (1 − s)·G_p        P_m = min(P_b, b·P_r·G/1000 W/m²)        P = y·P_m
///
/// R_so   clear_sky(), at sea level      c   clearness: the share of its sun that comes through the clouds
/// G_p    on_plane() of H, split by diffuse_share() or mean_diffuse_share()     s   shade      P_b   module_power() at cell_temperature()
/// y      yield, and no more than the regulator gives      b   what the panel gives at the battery's voltage, where the regulator leaves it there
struct PanelPower {
    Irradiance extraterrestrial;
    Ratio clearness;
    Irradiance horizontal;
    Ratio diffuse;
    Irradiance beam, sky, ground;  ///< on the plane, before shade
    Irradiance plane;              ///< after shade
    Temperature cell;
    Power panel;  ///< what the panel gives its regulator, before all losses
    Ratio yield;
    Power power;
};

/// Whether a clearness is that of one day, or of a month's mean day.
enum class ClearnessOf { one_day, mean_day };

PanelPower panel_power(const Panel& panel, const DaySun& sun, Duration from, Duration to, Temperature around,
                       Ratio clearness, ClearnessOf of = ClearnessOf::one_day);

}  // namespace voltwright

#pragma once

#include "voltwright/diagnosis/meter_value.hpp"
#include "voltwright/vehicle/equipment.hpp"

namespace voltwright {

/// The user's multimeter and clamp.
///
///     a = s·|x| + d        u = a/√3
///
/// a   the most that it is off, by its maker     s, d   share of the reading and fixed part
/// u   standard uncertainty: nothing is known of where within ±a the truth lies
///
/// Source: the form is the makers' own; u by the Guide to the expression of uncertainty in measurement, JCGM 100:2008,
/// 4.3.7 (from memory).
struct Meter {
    Accuracy<Voltage> voltage, millivolts;
    Accuracy<Current> current;

    /// Up to here a drop is read on the millivolt range.
    static constexpr Voltage millivolt_range = volts(0.4);

    /// The most that a voltage or a current may be read wrong.
    [[nodiscard]] Voltage error(Voltage reading) const;
    [[nodiscard]] Current error(Current reading) const;
    /// Nothing is read better than this, whatever the maker says: one standard uncertainty of a display that shows steps of
    /// 0.1 mV or 10 mA (common practice, no source), step/√12 (JCGM 100:2008, F.2.2.1, from memory).
    [[nodiscard]] static MeterValue finest(const MeterValue& reading);
    /// One standard uncertainty of what the meter shows.
    [[nodiscard]] MeterValue uncertainty(const MeterValue& reading) const;
};

Meter meter_of(const MeterAccuracy& accuracy);

/// Of a normal distribution, 19 in 20 lie within this many standard deviations.
inline constexpr double nineteen_in_twenty = 1.96;

}  // namespace voltwright

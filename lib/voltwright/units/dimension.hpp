#pragma once

#include "voltwright/units/quantities.hpp"

namespace voltwright {

/// What a quantity measures, whatever its unit.
enum class Dimension {
    current,
    voltage,
    resistance,
    power,
    energy,
    charge,
    length,
    area,
    volume,
    duration,
    mass,
    angle,
    ratio,
    temperature,
};

/// The dimension that `parse<Q>` reads. A rise is read as `temperature`.
template <class Q>
Dimension dimension() = delete;
template <>
constexpr Dimension dimension<Current>() {
    return Dimension::current;
}
template <>
constexpr Dimension dimension<Voltage>() {
    return Dimension::voltage;
}
template <>
constexpr Dimension dimension<Resistance>() {
    return Dimension::resistance;
}
template <>
constexpr Dimension dimension<Power>() {
    return Dimension::power;
}
template <>
constexpr Dimension dimension<Energy>() {
    return Dimension::energy;
}
template <>
constexpr Dimension dimension<Charge>() {
    return Dimension::charge;
}
template <>
constexpr Dimension dimension<Length>() {
    return Dimension::length;
}
template <>
constexpr Dimension dimension<Area>() {
    return Dimension::area;
}
template <>
constexpr Dimension dimension<Volume>() {
    return Dimension::volume;
}
template <>
constexpr Dimension dimension<Duration>() {
    return Dimension::duration;
}
template <>
constexpr Dimension dimension<Mass>() {
    return Dimension::mass;
}
template <>
constexpr Dimension dimension<Angle>() {
    return Dimension::angle;
}
template <>
constexpr Dimension dimension<Ratio>() {
    return Dimension::ratio;
}
template <>
constexpr Dimension dimension<Temperature>() {
    return Dimension::temperature;
}
template <>
constexpr Dimension dimension<TemperatureRise>() {
    return Dimension::temperature;
}

}  // namespace voltwright

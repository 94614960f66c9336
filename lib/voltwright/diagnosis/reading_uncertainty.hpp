#pragma once

#include "voltwright/diagnosis/sound_vehicle.hpp"

#include <optional>

namespace voltwright {

/// What a sound vehicle shows, and its standard deviation.
struct ExpectedReading {
    MeterValue value;  ///< with its sign
    MeterValue deviation;
};

/// The meter's uncertainty and that of every joint, cable, charger and load, each moved by one standard deviation of its
/// own.
///
///     u² = u_meter² + Σ (f(x_k + σ_k) − f(x))²
///
/// f   what the circuit shows     x_k, σ_k   resistances, the charger's current and losses, the loads, and how far each is off
///
/// Source: propagation of uncertainty with the finite differences of JCGM 100:2008, 5.1.3 note 2 (from memory). Empty when
/// the loads cannot be fed.
std::optional<ExpectedReading> expected_reading(const SoundVehicle& sound, const Probe& probe,
                                                const TestCondition& condition);

}  // namespace voltwright

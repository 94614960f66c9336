#pragma once

#include "voltwright/diagnosis/battery_limits.hpp"
#include "voltwright/diagnosis/predicted_reading.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace voltwright {

/// The vehicle without faults, which measurements are held against. Keeps references to what it is made of: model, system,
/// plan and tables have to outlive it.
struct SoundVehicle {
    const CircuitModel& model;
    const System& system;
    const Plan& plan;
    const Tables& tables;
    Meter meter;
    BatteryLimits batteries;
    std::vector<Resistance> resistances;  ///< of each element, as it should be
    std::vector<std::size_t> root;        ///< of each branch, the one at its battery
};

SoundVehicle sound_vehicle(const CircuitModel& model, const System& system, const Plan& plan, const Tables& tables);

/// What batteries, charger and loads usually do then.
SourceState usual_sources(const SoundVehicle& sound, const TestCondition& condition);

/// The circuit then; empty when its loads cannot be fed.
std::optional<Solution> solve(const SoundVehicle& sound, const TestCondition& condition);

/// What a meter without an error shows then; empty when the loads cannot be fed.
std::optional<MeterValue> predicted_reading(const SoundVehicle& sound, const Probe& probe,
                                            const TestCondition& condition);

}  // namespace voltwright

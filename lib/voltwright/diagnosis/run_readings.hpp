#pragma once

#include "voltwright/diagnosis/planned_reading.hpp"
#include "voltwright/diagnosis/reading_limits.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace voltwright {

PlannedReading reading_of(Stage stage, Proves proves, MeterRange range, const std::string& run = {});

/// What is still right there; empty where nothing can be expected.
std::optional<ReadingLimits> limits_at(const SoundVehicle& sound, const PlannedReading& reading,
                                       const TestCondition& condition);

/// Current and drops of a run that carries its loads; and, in case they are not right, its joints. Empty where nothing can be
/// expected of it.
std::vector<PlannedReading> readings_under_load(const SoundVehicle& sound, std::size_t branch,
                                                const TestCondition& condition, Stage stage);

/// What a meter is set to for such a value.
MeterRange range_of(const MeterValue& value);

}  // namespace voltwright

#pragma once

#include "voltwright/diagnosis/sound_vehicle.hpp"

#include <optional>

/// What a sound vehicle shows at a probe, and what is still right there: the one source of limits for the list of readings
/// and for their diagnosis.
namespace voltwright {

/// In the unit of the probe, without a sign.
struct ReadingLimits {
    MeterValue expected;
    std::optional<MeterValue> tolerance = {};  ///< three standard deviations, of the meter and the model together
    std::optional<MeterValue> least = {}, most = {};  ///< what is still right; empty: no bound there
    std::optional<Current> at = {};                   ///< of a drop: what flows then

    /// The bound that a reading passes, whatever its sign; empty for one within both.
    [[nodiscard]] std::optional<MeterValue> passed_by(const MeterValue& reading) const;
};

/// Empty where nothing can be expected: the loads of that condition cannot be fed.
std::optional<ReadingLimits> reading_limits(const SoundVehicle& sound, const Probe& probe,
                                            const TestCondition& condition);

/// The two sides of a run together: what a sound one loses between its ends, and at most.
struct LoopDrop {
    Voltage expected;
    Voltage most;
    Current at;  ///< that flows then; none where the loads of that condition cannot be fed
};

/// Empty where nothing flows.
std::optional<LoopDrop> loop_drop(const SoundVehicle& sound, std::size_t branch, const TestCondition& condition);

/// Is a probe on the posts of the battery that a run hangs on?
bool is_on_source_of(const CircuitModel& model, const Probe& probe, std::size_t branch);

}  // namespace voltwright

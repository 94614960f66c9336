#pragma once

#include "voltwright/diagnosis/measurement.hpp"
#include "voltwright/diagnosis/sound_vehicle.hpp"
#include "voltwright/tables/practice.hpp"

#include <cstddef>
#include <optional>
#include <vector>

/// What measurements say of each other, with a sound vehicle beside them.
namespace voltwright {

/// Volts: a place with less is dead, one with more alive; and as much across two points of one way is the whole of it
/// (data/practice/voltages.toml).
inline const Voltage dead_below = in_practice(PracticeVoltage::dead_below),
                     alive_from = in_practice(PracticeVoltage::alive_from);
/// No regulator that has failed gives as much.
inline constexpr Voltage impossible_voltage = volts(20.0);
/// Two readings differ for certain when they do by this many standard uncertainties.
inline constexpr double surely = 3.0;

/// Keeps references: the sound vehicle and the measurements have to outlive it.
struct Evidence {
    const SoundVehicle& sound;
    const std::vector<Measurement>& measurements;
    struct SolvedCondition {
        TestCondition condition;
        std::optional<Solution> solution;
    };
    std::vector<SolvedCondition> solved;  ///< of a sound vehicle, in each condition that was measured in
};

Evidence evidence_of(const SoundVehicle& sound, const std::vector<Measurement>& measurements);

/// Volts from plus to minus, whichever lead was named first; empty for a drop and a clamp.
std::optional<Voltage> plus_to_minus(const Measurement& measurement);

/// Were both leads on the posts of that battery?
bool at_posts(const Measurement& measurement, Battery battery);

/// Was it taken on the circuit of that battery?
bool on_circuit_of(const Evidence& evidence, const Measurement& measurement, Battery battery);

/// A sound vehicle in its condition; empty where the loads cannot be fed.
const std::optional<Solution>& sound_solution(const Evidence& evidence, const Measurement& measurement);

/// What flows through a branch of a sound vehicle then.
Current sound_current(const Evidence& evidence, std::size_t branch, const Measurement& measurement);

/// Next to nothing, as far as a clamp can tell.
bool shows_no_current(const Evidence& evidence, const Measurement& clamp);

/// Does another reading in the same condition show that current flows there?
bool current_flows(const Evidence& evidence, std::size_t branch, const Measurement& told);

/// Does a clamp around that branch show nothing in the same condition?
bool clamped_without_current(const Evidence& evidence, std::size_t branch, const Measurement& told);

/// Does a place at or behind the end of a branch have its voltage in the same condition?
bool voltage_arrives(const Evidence& evidence, std::size_t branch, const Measurement& told);

/// Is another reading on the circuit of the same battery alive in the same condition?
bool circuit_is_alive(const Evidence& evidence, const Measurement& told);

}  // namespace voltwright

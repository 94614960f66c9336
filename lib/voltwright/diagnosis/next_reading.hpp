#pragma once

#include "voltwright/diagnosis/fault_search.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

/// What to measure next, so that explanations which now are alike come apart.
namespace voltwright {

/// How well one more reading would tell the first of some explanations from its rivals.
///
///     d = Σ w_i · min(((y_i − y_0)/u)², 50)
///
/// y_i   what explanation i predicts there, the likeliest first      w_i   how likely it is against that
/// u     the standard uncertainty of the meter there
///
/// A difference of seven uncertainties is as good as any larger one: without that bound one absurd rival would decide.
double discrimination(std::span<const MeterValue> predicted, std::span<const double> log_weights,
                      const MeterValue& uncertainty);

/// A reading below this is not worth taking: it would leave the explanations about as they are.
inline constexpr double least_discrimination = 0.5;

/// Something that could be measured next, and what each explanation predicts there.
struct NextCandidate {
    PlannedReading reading;
    Probe probe;
    TestCondition condition;
    std::vector<MeterValue> predicted;
};

/// The one that tells most, the first of those that are alike; empty where none is worth taking.
std::optional<std::size_t> most_telling(std::span<const NextCandidate> candidates, std::span<const double> log_weights,
                                        const Meter& meter);

/// What to measure next, with what a sound vehicle would show there: as the test plan has it, or else by the same limits.
/// Currents, sides and joints of the runs that some explanation suspects are tried, in the condition in which most flows.
std::optional<PlannedReading> next_reading(const SoundVehicle& sound, const MeasurementModel& model,
                                           const SearchStep& rivals);

/// Where to measure for a break, with what a whole way shows there.
PlannedReading reading_for(const SoundVehicle& sound, const ProposedReading& proposed);

}  // namespace voltwright

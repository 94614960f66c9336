#pragma once

#include "voltwright/diagnosis/fault.hpp"
#include "voltwright/diagnosis/least_squares.hpp"
#include "voltwright/diagnosis/screening.hpp"

#include <cstddef>
#include <optional>
#include <vector>

/// What every measurement would show, as a function of all that is not known of the vehicle. Quantities become the plain
/// numbers of an estimator here, and nowhere else.
namespace voltwright {

/// A range among the priors of an estimate.
struct UnknownRange {
    std::size_t first = 0, count = 0;

    [[nodiscard]] std::size_t end() const { return first + count; }
};

/// Where each unknown stands among the priors of an estimate.
struct UnknownLayout {
    std::vector<std::size_t> of_element;  ///< the cables of a run share one: they are as long and as warm as each other
    UnknownRange resistances, charger_losses, loads, sources;

    /// The three of a condition: the starter battery's voltage, the house battery's, the charger's output.
    [[nodiscard]] std::size_t starter(std::size_t condition) const { return sources.first + 3 * condition; }
    [[nodiscard]] std::size_t house(std::size_t condition) const { return starter(condition) + 1; }
    [[nodiscard]] std::size_t charge(std::size_t condition) const { return starter(condition) + 2; }
    [[nodiscard]] std::size_t count() const { return sources.end(); }
};
UnknownLayout layout_of(const CircuitModel& circuit, std::size_t conditions);

/// One thing that was going on, with what is known beforehand of its sources.
struct MeasuredCondition {
    TestCondition condition;
    Voltage starter, house;     ///< that are usual then, or that were read
    bool charger_idle = false;  ///< the charger does nothing
};

/// Keeps a reference to the circuit, which has to outlive it.
struct MeasurementModel {
    const CircuitModel& circuit;
    std::vector<Measurement> measurements;
    std::vector<MeasuredCondition> conditions;
    std::vector<std::size_t> condition_of;  ///< of each measurement
    Voltage alternator_deviation;           ///< a smart one's battery may stand anywhere between its limits
    UnknownLayout layout;
};

MeasurementModel measurement_model(const SoundVehicle& sound, const std::vector<ScreenedMeasurement>& usable);

/// Everything as it should be.
Estimate prior_estimate(const MeasurementModel& model);

/// Of each element, as estimated with these faults: magnitudes of joints, cables and bodies are milliohms more, of a gauge
/// the share added to its cables.
std::vector<Resistance> estimated_resistances(const MeasurementModel& model, const Estimate& estimate,
                                              const std::vector<CircuitFault>& faults);

/// Batteries, charger and loads, as estimated.
SourceState estimated_sources(const MeasurementModel& model, const Estimate& estimate, std::size_t condition);

/// The circuit in one condition; empty when its loads cannot be fed.
std::optional<Solution> estimated_solution(const MeasurementModel& model, const Estimate& estimate,
                                           const std::vector<CircuitFault>& faults, std::size_t condition);

/// What each measurement would show, in volts or amperes; empty where the loads cannot be fed. The magnitude of a gross error
/// is what it adds to its measurement.
std::optional<Vector> predicted(const MeasurementModel& model, const Estimate& estimate,
                                const std::vector<CircuitFault>& faults);

/// What was shown less what would be, in standard uncertainties.
Vector residuals(const MeasurementModel& model, const Vector& predicted);

/// The slopes of the measurements in the priors and in the magnitudes of `wanted`, at an estimate with `faults`, in standard
/// uncertainties of each measurement. By small steps through the solved circuit; empty where its loads cannot be fed.
std::optional<Jacobian> jacobian(const MeasurementModel& model, const Estimate& estimate,
                                 const std::vector<CircuitFault>& faults, const std::vector<CircuitFault>& wanted);

}  // namespace voltwright

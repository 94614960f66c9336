#pragma once

#include "voltwright/diagnosis/anomaly.hpp"
#include "voltwright/diagnosis/element_set.hpp"
#include "voltwright/diagnosis/evidence.hpp"
#include "voltwright/diagnosis/proposed_reading.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

/// What the checks of the screening tell each other. They run in the order in which they stand here.
namespace voltwright {

/// A way that is open.
struct OpenCircuit {
    ElementSet among;
    std::size_t reading;  ///< the first that tells of it, by its place among the measurements
    std::size_t branch;   ///< at whose end nothing arrives
    bool only_dead;       ///< nothing is known but that a place is dead
};

struct ScreeningState {
    Evidence evidence;
    std::vector<bool> finished = {};         ///< of each measurement: told all that it can
    std::vector<bool> battery_as_read = {};  ///< of each measurement
    std::vector<OpenCircuit> open = {};
    std::vector<std::string> idle_loads = {};      ///< that are on and take nothing
    std::vector<TestCondition> idle_charger = {};  ///< in which voltages tell that the charger does nothing
    std::vector<Anomaly> anomalies = {};
    std::optional<ProposedReading> next = {};

    [[nodiscard]] const std::vector<Measurement>& measurements() const { return evidence.measurements; }
    [[nodiscard]] const CircuitModel& model() const { return evidence.sound.model; }
};

void check_polarity(ScreeningState& state);
void check_open_circuits(ScreeningState& state);
void check_loads_that_take_nothing(ScreeningState& state);
void check_batteries(ScreeningState& state);
void check_charger(ScreeningState& state);
void check_lost_under_load(ScreeningState& state);

/// Told of a part that is not connected: it was taken for what it tells of the break, and tells nothing else.
bool behind_open_circuit(const ScreeningState& state, const Measurement& measurement);

/// Does the charger do nothing then?
bool charger_is_idle(const ScreeningState& state, const TestCondition& condition);

}  // namespace voltwright

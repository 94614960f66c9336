#pragma once

#include "voltwright/diagnosis/measurement_model.hpp"

#include <string>
#include <vector>

/// The smallest circuit in which one thing can be told from another: a battery, two joints of 1 mΩ in the way out, and a lamp
/// of 10 A.
namespace voltwright::testing {

inline CircuitModel two_joints() {
    const auto joint = [](const char* name) {
        return CircuitElement{Element{Element::Kind::joint, Side::out, name, "plug"}, 0, milliohms(1), milliohms(0.1)};
    };
    CircuitModel circuit;
    circuit.elements = {joint("first"), joint("second")};
    circuit.branches = {{.run = "lamp",
                         .plan_run = 0,
                         .role = RunRole::appliance,
                         .near = "battery",
                         .far = "lamp",
                         .by_starter = false,
                         .from = {},
                         .elements = {0, 1}}};
    circuit.loads = {{"lamp", 0, amperes(10)}};
    return circuit;
}

inline const TestCondition lamp_on{Engine::off, {"lamp"}};

inline Measurement measured(std::size_t number, const Probe& probe, MeterValue value, MeterValue uncertainty) {
    return {number, probe, lamp_on, value, uncertainty};
}

inline MeasurementModel model_of(const CircuitModel& circuit, const std::vector<Measurement>& measurements) {
    return {.circuit = circuit,
            .measurements = measurements,
            .conditions = {{lamp_on, volts(12.6), volts(12.6)}},
            .condition_of = std::vector<std::size_t>(measurements.size(), 0),
            .alternator_deviation = volts(0.6),
            .layout = layout_of(circuit, 1)};
}

}  // namespace voltwright::testing

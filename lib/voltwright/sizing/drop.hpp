#pragma once

#include "voltwright/circuit/converter.hpp"
#include "voltwright/circuit/run.hpp"
#include "voltwright/sizing/run_load.hpp"
#include "voltwright/sizing/warm_run.hpp"
#include "voltwright/tables/practice.hpp"

#include <optional>

namespace voltwright {

/// What a load draws through a run, and how warm that makes the conductors.
struct SettledLoad {
    std::optional<ConverterPower> charger;  ///< where the power of a charger comes from
    std::optional<ConverterInput> input;    ///< for loads of constant power
    Current current;
    WarmRun::Temperatures conductors;
};

/// Resistance heats with the current and the current grows with the resistance: solved together by repeated substitution,
/// which rises from the cold side to the first point where both settle. What has not settled after many steps would run
/// away, and counts as not delivered: empty, as for power that cannot come through the loop at all.
std::optional<SettledLoad> settle(const RunLoad& load, const WarmRun& run, Voltage source);

/// The volts lost in a run at the normal running voltage, conductors at the temperature where they settle.
///
///     U = I·R
///
/// Source: Ohm's law; the current of a charger or an appliance of constant power is solved together with the loop.
struct DropCheck {
    Voltage source;
    std::optional<ConverterPower> charger = {};  ///< where the power of a charger comes from
    std::optional<ConverterInput> input = {};    ///< for loads of constant power
    RunResistance resistance;
    Current current;
    Voltage drop;
    Voltage cable_drop;
    Voltage joint_drop;
    Ratio share;  ///< of 12 V
    Ratio limit;
    Voltage allowed;
    Voltage far_end;
    Power heat;
};

/// In a run whose conductors are as warm as the load makes them.
DropCheck drop_check(const SettledLoad& load, RunResistance resistance, const Supply& supply);

/// What a charger still sees when the alternator gives least.
struct LowestInput {
    ConverterInput input;
    Voltage input_off;
    Voltage required;  ///< input_off + 0.2 V
    Voltage far_end;
};

/// The margin above its cut-off that a charger is left with at the lowest running voltage. data/practice/voltages.toml.
inline const Voltage input_margin = in_practice(PracticeVoltage::input_margin);

}  // namespace voltwright

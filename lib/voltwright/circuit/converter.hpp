#pragma once

#include "voltwright/units/quantities.hpp"

#include <optional>

namespace voltwright {

/// What a DC-DC charger draws from its feed: constant power, so less volts means more amps.
///
///     V = (V_s + √(V_s² − 4·P·R))/2
///     I = P/V
///
/// V_s   voltage of the source         P   power that the converter takes in
/// R     resistance of the whole loop
///
/// The upper root is the stable one. When I would exceed the converter's input limit, the input is that constant
/// current instead (`limited`), and the power taken in falls.
/// Source: Ohm's law and P = V·I; closed form.
struct ConverterInput {
    Voltage source;
    Resistance loop;
    Power power;
    std::optional<Current> limit;
    bool limited;
    Voltage voltage;
    Current current;
};

/// Empty when V_s² < 4·P·R and no limit helps: the power cannot be delivered at all.
std::optional<ConverterInput> converter_input(Voltage source, Resistance loop, Power power,
                                              std::optional<Current> limit = {});

/// The power that a charger takes in at full output: P = I_out·V_out/η.
struct ConverterPower {
    Current output;
    Voltage output_voltage;
    Ratio efficiency;
    Power power;
};

ConverterPower converter_power(Current output, Voltage output_voltage, Ratio efficiency);

/// The most current that a charger's feed ever carries, whatever the cable.
///
///     I = I_out·V_out/(η·V_off), at most the input limit
///
/// V_out   the highest absorption voltage: compensated at the coldest of the trip
/// V_off   the input voltage at which the charger gives up
struct FeedDesignCurrent {
    Current output;
    Voltage highest_output_voltage;
    Ratio efficiency;
    Voltage input_off;
    std::optional<Current> limit;
    Current current;
};

FeedDesignCurrent feed_design_current(Current output, Voltage highest_output_voltage, Ratio efficiency,
                                      Voltage input_off, std::optional<Current> limit);

}  // namespace voltwright

#pragma once

#include "voltwright/reasons/formula.hpp"
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

template <>
struct Described<ConverterInput> {
    static constexpr Equation equation{"V = (Vs + sqrt(Vs² − 4·P·R))/2", "P = V·I through a resistance, upper root"};
    static constexpr auto result = &ConverterInput::voltage;
    static constexpr auto fields = std::tuple{
        field(&ConverterInput::source, "Vs", "voltage at the source"),
        field(&ConverterInput::loop, "R", "loop resistance"),
        field(&ConverterInput::power, "P", "power taken in"),
        field(&ConverterInput::limit, "", "input limit of the charger"),
        field(&ConverterInput::limited, "", "held at its input limit"),
        field(&ConverterInput::voltage, "V", "voltage at the far end"),
        field(&ConverterInput::current, "I", "current"),
    };
};

template <>
struct Described<ConverterPower> {
    static constexpr Equation equation{"P = Iout·Vout/η", "definition of efficiency"};
    static constexpr auto result = &ConverterPower::power;
    static constexpr auto fields = std::tuple{
        field(&ConverterPower::output, "Iout", "output current"),
        field(&ConverterPower::output_voltage, "Vout", "absorption voltage"),
        field(&ConverterPower::efficiency, "η", "efficiency"),
        field(&ConverterPower::power, "P", "power taken in"),
    };
};

template <>
struct Described<FeedDesignCurrent> {
    static constexpr Equation equation{"I = Iout·Vout/(η·Voff), at most the input limit",
                                       "a charger draws constant power: most amps at least volts"};
    static constexpr auto result = &FeedDesignCurrent::current;
    static constexpr auto fields = std::tuple{
        field(&FeedDesignCurrent::output, "Iout", "output current"),
        field(&FeedDesignCurrent::highest_output_voltage, "Vout", "highest absorption voltage, on the coldest night"),
        field(&FeedDesignCurrent::efficiency, "η", "efficiency"),
        field(&FeedDesignCurrent::input_off, "Voff", "input voltage at which the charger gives up"),
        field(&FeedDesignCurrent::limit, "", "input limit of the charger"),
        field(&FeedDesignCurrent::current, "I", "design current"),
    };
};

}  // namespace voltwright

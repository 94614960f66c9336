#pragma once

#include "voltwright/circuit/converter.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

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

#pragma once

#include "voltwright/circuit/conductor.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<ConductorResistance> {
    static constexpr Equation equation{"R' = R'row·(1 + α·(T − 20 °C))/(1 + α·(Trow − 20 °C))",
                                       "annealed copper; IEC 60228 (metric), NEC chapter 9 table 8 (AWG)"};
    static constexpr auto result = &ConductorResistance::per_length;
    static constexpr auto fields = std::tuple{
        field(&ConductorResistance::printed, "R'row", "resistance as printed"),
        field(&ConductorResistance::printed_at, "Trow", "the temperature it is printed for"),
        field(&ConductorResistance::coefficient, "α", "temperature coefficient of copper at 20 degC"),
        field(&ConductorResistance::temperature, "T", "the conductor's temperature, averaged along its way"),
        field(&ConductorResistance::per_length, "R'", "resistance per length"),
    };
};

template <>
struct Described<ConductorTemperature> {
    static constexpr Equation equation{"T = Taround + (Trated − Tref)·(I/(Iref·k))²",
                                       "heat goes with the square of the current, as in the codes' ambient correction"};
    static constexpr auto result = &ConductorTemperature::temperature;
    static constexpr auto fields = std::tuple{
        field(&ConductorTemperature::around, "Taround", "hottest surroundings while it carries current"),
        field(&ConductorTemperature::current, "I", "current"),
        field(&ConductorTemperature::rated, "Trated", "temperature rating of the insulation"),
        field(&ConductorTemperature::reference, "Tref", "ambient of the ampacity table"),
        field(&ConductorTemperature::reference_current, "Iref", "ampacity in the table"),
        field(&ConductorTemperature::grouping, "k", "factor for conductors lying together"),
        field(&ConductorTemperature::rise, "ΔT", "rise above its surroundings"),
        field(&ConductorTemperature::temperature, "T", "conductor temperature", "conductor_temperature_C"),
    };
};

}  // namespace voltwright

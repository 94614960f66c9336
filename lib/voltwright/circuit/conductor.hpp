#pragma once

#include "voltwright/reasons/formula.hpp"
#include "voltwright/tables/conductors.hpp"
#include "voltwright/units/quantities.hpp"

namespace voltwright {

/// What a conductor's strands are coated with. Tinned copper resists 2 to 4.5 % more.
enum class Coating { plain, tinned };

/// Resistance of a conductor per length at a temperature, from its size's printed row.
///
///     R' = R'_row · (1 + α·(T − 20 °C)) / (1 + α·(T_row − 20 °C))
///
/// R'_row   the printed resistance, at the temperature T_row that its table is printed for
/// α        0.00393 /K for annealed copper, referred to 20 °C
/// T        the conductor's own temperature
///
/// Holds from −40 °C to 250 °C; annealed copper only. Source: IEC 60228 for metric sizes, NEC chapter 9 table 8 for AWG;
/// α: IEC 60028 (from memory), the international annealed copper standard.
struct ConductorResistance {
    Cited<ResistancePerLength> printed;
    Temperature printed_at;
    Cited<PerKelvin> coefficient;
    Temperature temperature;
    ResistancePerLength per_length;
};

ConductorResistance conductor_resistance(const ConductorRow& row, Coating coating, Temperature temperature);
/// The result alone.
ResistancePerLength resistance_per_length(const ConductorRow& row, Coating coating, Temperature temperature);

/// Temperature that a loaded conductor settles at: its heat goes with the square of the current.
///
///     T = T_around + ΔT
///     ΔT = (T_rated − T_ref) · (I / (I_ref·k))²
///
/// I_ref   the current at which the conductor, alone in air of T_ref, reaches the temperature T_rated of its insulation
/// k       factor for other loaded conductors beside it
///
/// A steady state; nothing is said of how fast. Source: the definition of ampacity, with heat in proportion to I²; it
/// is the law behind the ambient correction √((T_rated − T)/(T_rated − T_ref)) of the wiring codes. (FAA AC 43.13-1B
/// 11-66 has a square root of the current ratio instead, deliberately cautious for thin aircraft bundles.)
struct ConductorTemperature {
    Temperature around;
    Current current;
    Temperature rated;
    Temperature reference;
    Current reference_current;
    Ratio grouping;
    TemperatureRise rise;
    Temperature temperature;
};

ConductorTemperature conductor_temperature(Temperature around, Current current, Temperature rated,
                                           Temperature reference, Current reference_current, Ratio grouping);

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

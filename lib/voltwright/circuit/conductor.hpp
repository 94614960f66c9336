#pragma once

#include "voltwright/provenance/cited.hpp"
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

}  // namespace voltwright

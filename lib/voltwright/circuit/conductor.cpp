#include "voltwright/circuit/conductor.hpp"

namespace voltwright {

ConductorResistance conductor_resistance(const ConductorRow& row, Coating coating, Temperature temperature) {
    const ResistancePerLength printed = coating == Coating::tinned ? row.tinned : row.plain;
    const PerKelvin alpha = row.coefficient;
    const auto factor = [alpha](Temperature t) { return 1.0 + alpha * (t - celsius(20)); };
    return {{printed, row.source},
            row.resistance_at,
            {alpha, row.coefficient_source},
            temperature,
            printed * factor(temperature) / factor(row.resistance_at)};
}

ConductorTemperature conductor_temperature(Temperature around, Current current, Temperature rated,
                                           Temperature reference, Current reference_current, Ratio grouping) {
    const Ratio share = current / (reference_current * grouping);
    const TemperatureRise rise = (rated - reference) * share * share;
    return {around, current, rated, reference, reference_current, grouping, rise, around + rise};
}

}  // namespace voltwright

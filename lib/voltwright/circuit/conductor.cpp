#include "voltwright/circuit/conductor.hpp"

namespace voltwright {

namespace {

ResistancePerLength printed(const ConductorRow& row, Coating coating) {
    return coating == Coating::tinned ? row.tinned : row.plain;
}

}  // namespace

ResistancePerLength resistance_per_length(const ConductorRow& row, Coating coating, Temperature temperature) {
    const auto factor = [alpha = row.coefficient](Temperature t) { return 1.0 + alpha * (t - celsius(20)); };
    return printed(row, coating) * factor(temperature) / factor(row.resistance_at);
}

ConductorResistance conductor_resistance(const ConductorRow& row, Coating coating, Temperature temperature) {
    return {{printed(row, coating), row.source},
            row.resistance_at,
            {row.coefficient, row.coefficient_source},
            temperature,
            resistance_per_length(row, coating, temperature)};
}

ConductorTemperature conductor_temperature(Temperature around, Current current, Temperature rated,
                                           Temperature reference, Current reference_current, Ratio grouping) {
    const Ratio share = current / (reference_current * grouping);
    const TemperatureRise rise = (rated - reference) * share * share;
    return {around, current, rated, reference, reference_current, grouping, rise, around + rise};
}

}  // namespace voltwright

#include "voltwright/energy/internal_resistance.hpp"

#include <algorithm>

namespace voltwright {

namespace {

InternalResistance between(Resistance low, Resistance high, Source source, bool assumed) {
    return {low, high, (low + high) / 2.0, source, assumed};
}

Resistance cold_resistance(const CrankingRow& test, Current cold_cranking) {
    return (test.open - test.under_test) / cold_cranking;
}

}  // namespace

InternalResistance internal_resistance(const ChemistryRow& chemistry, Charge capacity, int count) {
    const double batteries = count;
    InternalResistance all =
        between((chemistry.resistance_low / capacity + chemistry.fixed_low) / batteries,
                (chemistry.resistance_high / capacity + chemistry.fixed_high) / batteries, chemistry.source, true);
    if (chemistry.resistance)
        all.expected = (*chemistry.resistance / capacity + chemistry.fixed.value_or(Resistance{})) / batteries;
    return all;
}

InternalResistance internal_resistance(const CrankingRow& test, Current cold_cranking) {
    const Resistance cold = cold_resistance(test, cold_cranking);
    return between(cold * test.warm_low, cold * test.warm_high, test.source, false);
}

InternalResistance usual_starter_resistance(const CrankingRow& test) {
    return between(cold_resistance(test, test.unknown_high) * test.warm_low,
                   cold_resistance(test, test.unknown_low) * test.warm_high, test.source, true);
}

InternalResistance known_resistance(Resistance value, Resistance half_width) {
    return between(std::max(value - half_width, value / 10.0), value + half_width, {"profile", "given in the profile"},
                   false);
}

}  // namespace voltwright

#pragma once

#include "voltwright/provenance/source.hpp"
#include "voltwright/tables/chemistries.hpp"
#include "voltwright/units/quantities.hpp"

namespace voltwright {

/// A battery's internal resistance, warm and full, as far as it is known: anything from low to high.
struct InternalResistance {
    Resistance low, high;
    Resistance expected;  ///< the middle of the range, where nothing better is known
    Source source;
    bool assumed;  ///< nobody measured it
};

/// From the chemistry and the capacity of one battery, for `count` equal ones in parallel.
///
///     R_i = (r/Q + R_fixed)/n
///
/// r         the chemistry's resistance times capacity (a range)    Q   capacity of one battery
/// R_fixed   a lithium battery's own switch                         n   how many in parallel
///
/// A rough rule with a factor of two and more between sources: the range spans them, and the row may say what to expect. Source: the chemistry's row.
InternalResistance internal_resistance(const ChemistryRow& chemistry, Charge capacity, int count);

/// From the cold-cranking figure of a starter battery.
///
///     R_cold = (V_open − V_test)/I_cc        R_warm = R_cold · w
///
/// I_cc   the cold-cranking current     w   warm resistance over cold (a range)
///
/// Source: the definition of the test (SAE J537); the warm share is from memory.
InternalResistance internal_resistance(const CrankingRow& test, Current cold_cranking);

/// Of a starter battery of which nothing is known: the range over the usual cold-cranking figures.
InternalResistance usual_starter_resistance(const CrankingRow& test);

/// As measured or read from its sheet.
InternalResistance known_resistance(Resistance value, Resistance half_width);

}  // namespace voltwright

#pragma once

#include "voltwright/provenance/cited.hpp"
#include "voltwright/tables/tables.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// The continuous current that a conductor may carry where it runs.
///
///     I = I_table · k_a · k        k_a = min(1, √((T_rated − T_around)/(T_rated − T_ref)))
///
/// I_table   the basis's cell for the size and the insulation's class, at T_ref
/// k_a       never above 1: cool places add nothing to a table; from where the basis prints a factor for engine spaces,
///           not above that either
/// k         the basis's factor for loaded conductors lying together
///
/// Nothing is rounded. Surroundings at or above the insulation's class leave no current at all. A size that the basis
/// does not print (a metric one in a table of AWG) takes the row of the thickest printed conductor that has no more
/// copper, judged by resistance at 20 °C.
/// Source: the basis; the square root is the law behind the ambient tables of NEC, IEC 60364-5-52 and the marine codes.
struct Ampacity {
    Cited<Current> table;
    Gauge table_size;
    Temperature rated;
    Temperature reference;
    Temperature around;
    Ratio ambient;
    int loaded;
    Ratio grouping;
    Current current;
};

/// Empty when the basis has no row for so thin a conductor or so low an insulation class.
std::optional<Ampacity> ampacity(const Tables& tables, std::string_view basis, const ConductorRow& conductor,
                                 Temperature insulation, Temperature around, int loaded, Voltage system);

/// √((T_rated − T)/(T_rated − T_ref)), nothing from the rating on.
Ratio ambient_factor(Temperature rated, Temperature reference, Temperature around);

/// The row of a size; for "auto" cable by outside diameter, the metric row of no more copper, scaled to its strands.
std::optional<ConductorRow> conductor_of(const Tables& tables, Gauge gauge);

}  // namespace voltwright

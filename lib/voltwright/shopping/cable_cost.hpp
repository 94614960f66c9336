#pragma once

#include "voltwright/planning/objective.hpp"
#include "voltwright/shopping/prices.hpp"

#include <optional>

namespace voltwright {

/// What a run costs in one size: its cable as it is laid, out and back, and its ring lugs where the list prices them. Each
/// line is rounded half up to the currency's decimals; of a roll or a pack what is used of it. Empty for a size whose cable
/// has no price; a way back whose size is given costs what it costs whatever is chosen, and nothing where it has no price.
///
/// Left aside: the allowance, the rest of rolls and packs, tube, heat-shrink, grommets, clips, fuses and their holders.
std::optional<Money> cable_cost(const PriceList& list, const System& system, const SystemRun& run,
                                const Candidate& candidate, const Tables& tables = built_in_tables());

/// Whether what prices that cable is a row for any size, which does not tell a thick one from a thin one.
bool any_size_alike(const PriceList& list, const SystemRun& run, Gauge size);

/// Cables for the least money by a price list, for `PlanDetail::objective`. It keeps the list.
Objective least_money(PriceList list);

}  // namespace voltwright

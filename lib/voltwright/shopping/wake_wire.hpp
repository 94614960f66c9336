#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/shopping/parts_list.hpp"

namespace voltwright {

/// The size of the wire that tells the charger that the ignition is on: the thinnest that the rules allow. Empty where
/// nothing is told so, or where there is no such size.
std::optional<Gauge> wake_wire_size(const System& system, const Tables& tables);

/// That wire, as long as the feed whose way it goes, with a small fuse where it begins.
void add_wake_wire(PartsList& list, const System& system, const Plan& plan, const Tables& tables);

}  // namespace voltwright

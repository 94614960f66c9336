#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/shopping/parts_list.hpp"

#include <string_view>
#include <vector>

namespace voltwright {

/// The size of the way back of a run whose way out has this one; empty with a body return.
std::optional<Gauge> back_of(const SystemRun& run, Gauge size);

/// A cable as long as it is laid.
Part cable_of(std::string_view colour, Gauge size, Temperature insulation, Length length);

/// The cable of a run in one size, as long as it is laid: red out, black back or from the appliance to the body.
std::vector<Part> cables_of(const SystemRun& run, Gauge size);

/// A cable with a label at each end.
void add_cable(PartsList& list, const Part& cable, const std::string& run);

/// The cables of a run with their labels; of one that is there already the labels alone, and a note.
void add_cables(PartsList& list, const RunPlan& run, const Candidate& taken);

}  // namespace voltwright

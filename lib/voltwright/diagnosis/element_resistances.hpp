#pragma once

#include "voltwright/diagnosis/circuit_element.hpp"

#include <cstddef>
#include <vector>

namespace voltwright {

struct RunPlan;

/// Each element of a run with the resistance that it should have, and its standard deviation. Needs a run for which a size
/// is taken. An element of which no table knows a resistance is left out.
std::vector<CircuitElement> elements_with_resistances(const RunPlan& run, std::size_t branch, const Tables& tables);

}  // namespace voltwright

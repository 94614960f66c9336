#pragma once

#include "voltwright/diagnosis/circuit_model.hpp"
#include "voltwright/diagnosis/probe.hpp"

#include <cstddef>
#include <vector>

/// Sets of elements, and those that a probe spans.
namespace voltwright {

using ElementSet = std::vector<std::size_t>;  ///< in rising order

ElementSet united(const ElementSet& a, const ElementSet& b);
ElementSet common(const ElementSet& a, const ElementSet& b);
ElementSet without(const ElementSet& a, const ElementSet& b);

/// What has to be whole for both leads to see the battery; of a drop, what lies between them. Empty for a clamp.
ElementSet spanned(const CircuitModel& model, const Probe& probe);

/// Is one of them on that side of its run?
bool reaches_side(const CircuitModel& model, const ElementSet& elements, Side side);

}  // namespace voltwright

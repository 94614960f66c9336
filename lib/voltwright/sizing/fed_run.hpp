#pragma once

#include "voltwright/units/quantities.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace voltwright {

/// A size that a run may have: it passes every criterion of its own.
struct SizeOption {
    double cost;   ///< kilograms of copper or money: the same for all runs
    Voltage lost;  ///< in this run alone, everything behind it on together
};

/// A run among others.
struct FedRun {
    std::optional<std::size_t> fed_by;  ///< the run before it, by its place in the list; empty: a source
    std::vector<SizeOption> options;    ///< by rising area; only ties are settled by the order
    std::optional<Voltage> limit = {};  ///< the most that may be lost from the source to its far end
};

}  // namespace voltwright

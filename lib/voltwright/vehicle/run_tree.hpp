#pragma once

#include "voltwright/circuit/place.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace voltwright {

/// The two ends of a run.
struct RunEnds {
    Place from, to;
};

/// How the runs of a vehicle hang on each other. Each begins at a source, or at the junction where another ends; so they
/// are trees, one for each run that begins at a source. Runs are told by their index.
struct RunTree {
    std::vector<std::optional<std::size_t>>
        before;  ///< of each run the one that it hangs on; empty: it begins at a source
    std::vector<std::vector<std::size_t>> after;  ///< of each run those that hang on its end, by rising index
    std::vector<std::size_t> root;                ///< of each run the first one of its way
    std::vector<std::size_t> order;               ///< all runs, each behind the one that it hangs on

    /// Whether the way to a run leads through another one, or is that one.
    [[nodiscard]] bool leads_through(std::size_t run, std::size_t through) const;
    /// Whether a run shares its way, or its end, with others.
    [[nodiscard]] bool shares(std::size_t run) const { return before[run].has_value() || !after[run].empty(); }
    /// A run and all that hang on it, each behind the one that it hangs on, branch after branch.
    [[nodiscard]] std::vector<std::size_t> from(std::size_t run) const;
};

/// Of runs that contradict nothing: at most one leads to each junction, and none in a circle.
RunTree run_tree(std::span<const RunEnds> runs);

}  // namespace voltwright

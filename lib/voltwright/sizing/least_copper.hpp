#pragma once

#include "voltwright/units/quantities.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace voltwright {

/// A size that a run may take, as far as the choice across runs sees it.
struct CopperSize {
    double cost;   ///< copper, or money: whatever is to be least, never negative
    Voltage lost;  ///< in this run, whatever the other runs take
};

/// A run of a tree, or of several.
struct CopperRun {
    std::optional<std::size_t> parent = {};  ///< an earlier run, which it goes on from; empty: begins at a source
    std::vector<CopperSize> sizes = {};      ///< at least one, the thinnest first
    std::optional<Voltage> limit = {};       ///< of what may be lost from the source to its end
};

/// One size for each run, so that all together cost least and no limit is passed; empty when no choice keeps them. Of
/// choices that come to the same the one with the thicker size nearer to the source.
///
/// Exact, by dynamic programming. What a run and all behind it cost at least is a step function of the volts x that are
/// lost before it,
///
///     f(x) = min over its sizes of cost + F(x + lost)        x + lost within its own limit
///
/// where F is the sum of the functions of the runs that go on from its end. The steps of functions that are added add up;
/// a run multiplies them by its sizes at most. With s sizes, n runs and d trunks between a source and the deepest end
/// there are at most n·s^(d + 1) steps, and far fewer after those that others beat are dropped.
///
/// Source: Bellman's principle of optimality.
std::optional<std::vector<std::size_t>> least_copper(std::span<const CopperRun> runs);

}  // namespace voltwright

#pragma once

#include "voltwright/sizing/fed_run.hpp"

#include <compare>
#include <cstddef>
#include <cstdint>
#include <vector>

/// What least_cost() works on: the tree of runs in whole numbers, the linear relaxation with its Lagrangian lower bounds, and
/// the Pareto fronts.
namespace voltwright::least_cost_tree {

/// Whole numbers add up to the same in any order.
using Picovolts = std::int64_t;
using CostUnits = std::int64_t;

/// More than any way can lose.
constexpr Picovolts unlimited = 2'000'000'000'000'000'000;

Picovolts in_picovolts(Voltage voltage);

struct Option {
    CostUnits cost;
    Picovolts lost;
};

/// What is minimised, in this order.
struct TreeCost {
    CostUnits cost = 0;
    Picovolts lost = 0;  ///< in all runs together
    friend auto operator<=>(const TreeCost&, const TreeCost&) = default;
    friend TreeCost operator+(const TreeCost& a, const TreeCost& b) { return {a.cost + b.cost, a.lost + b.lost}; }
};

/// With no more than `reach` lost upstream, the subtree can be had for this cost.
struct ParetoPoint {
    Picovolts reach;
    TreeCost total;
};

/// The non-dominated points of a subtree, as a step function of the upstream drop: falling reach, falling cost.
using ParetoFront = std::vector<ParetoPoint>;

/// A piece of the convex cost function of the linear relaxation, in which a run may mix its options.
struct Segment {
    Picovolts width;
    double saving;
    bool own;  ///< of the run itself, not of the subtree behind it
};

struct Relaxation {
    Picovolts reach = unlimited;
    std::vector<Segment> segments;  ///< from the reach down to no upstream drop, by falling saving for each volt
};

/// A Lagrangian lower bound: no point of a subtree costs less than `base + slope·reach`.
struct LowerBound {
    double base = 0.0;
    double slope = 0.0;
    [[nodiscard]] double excess(const ParetoPoint& point) const {
        return static_cast<double>(point.total.cost) - base - slope * static_cast<double>(point.reach);
    }
};

struct Node {
    std::vector<Option> options;
    std::vector<std::size_t> hull;  ///< options on the lower convex hull, from the least loss to the least cost
    Picovolts limit = unlimited;
    std::vector<std::size_t> feeds;

    Picovolts least_before = 0, most_before = 0;  ///< lost before it, at least and at most
    Relaxation relaxed, relaxed_behind;
    double multiplier = 0.0;  ///< Lagrange multiplier of its own limit
    LowerBound bound, bound_behind;
    std::size_t source = 0;  ///< the run at the beginning of the way to it
    double gap = 0.0;        ///< points that exceed the bound by more cannot be part of a better answer
    ParetoFront front, front_behind;

    Picovolts least_lost = 0, most_lost = 0;  ///< in it
};

/// Throws std::logic_error for a question without an answer; see least_cost().
void check_options(const std::vector<FedRun>& runs);
/// Every run after the one that feeds it.
std::vector<std::size_t> in_topological_order(const std::vector<FedRun>& runs);
std::vector<Node> nodes_of(const std::vector<FedRun>& runs, const std::vector<std::size_t>& order);

/// Solves the relaxation of every subtree: convex cost functions are added, and a run's own hull is merged in.
void solve_relaxation(std::vector<Node>& nodes, const std::vector<std::size_t>& order);
/// From the sources along the optimum of the relaxation: splits the shadow price of a volt into the multipliers of the
/// limits, and rounds each run to the hull option of less drop, which keeps every limit.
std::vector<std::size_t> round_relaxation(std::vector<Node>& nodes, const std::vector<FedRun>& runs,
                                          const std::vector<std::size_t>& order);
/// Every set of non-negative multipliers gives a valid lower bound; better multipliers give a tighter one.
void find_lower_bounds(std::vector<Node>& nodes, const std::vector<std::size_t>& order);

}  // namespace voltwright::least_cost_tree

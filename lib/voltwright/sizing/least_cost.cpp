#include "voltwright/sizing/least_cost.hpp"

#include "voltwright/sizing/least_cost_tree.hpp"

#include <algorithm>
#include <stdexcept>

namespace voltwright {

using namespace least_cost_tree;

namespace {

/// The costs, source by source, of a choice of all runs.
std::vector<double> costs_by_source(const std::vector<Node>& nodes, const std::vector<std::size_t>& choice) {
    std::vector<CostUnits> costs(nodes.size());
    for (std::size_t i = 0; i < nodes.size(); ++i) costs[nodes[i].source] += nodes[i].options[choice[i]].cost;
    return {costs.begin(), costs.end()};
}

ParetoFront sum(const ParetoFront& a, const ParetoFront& b) {
    ParetoFront both;
    if (a.empty() || b.empty()) return both;
    both.reserve(a.size() + b.size());
    Picovolts reach = std::min(a.front().reach, b.front().reach);
    for (std::size_t i = 0, j = 0;;) {
        while (i + 1 < a.size() && a[i + 1].reach >= reach) ++i;
        while (j + 1 < b.size() && b[j + 1].reach >= reach) ++j;
        both.push_back({reach, a[i].total + b[j].total});
        if (i + 1 == a.size() && j + 1 == b.size()) return both;
        if (i + 1 == a.size())
            reach = b[j + 1].reach;
        else if (j + 1 == b.size())
            reach = a[i + 1].reach;
        else
            reach = std::max(a[i + 1].reach, b[j + 1].reach);
    }
}

/// The cheapest way to have `before` volts lost before it; nullptr when there is none.
const TreeCost* cost_at(const ParetoFront& front, Picovolts before) {
    const auto beyond = std::partition_point(front.begin(), front.end(),
                                             [before](const ParetoPoint& point) { return point.reach >= before; });
    return beyond == front.begin() ? nullptr : &std::prev(beyond)->total;
}

void build_front_behind(std::vector<Node>& nodes, Node& node) {
    ParetoFront& front = node.front_behind;
    front = {{node.limit, {}}};
    for (const std::size_t fed : node.feeds) front = sum(front, nodes[fed].front);
    const Picovolts least = node.least_before + node.least_lost;
    std::erase_if(front, [&](const ParetoPoint& point) {
        return point.reach < least || node.bound_behind.excess(point) > node.gap;
    });
}

void build_front(Node& node) {
    node.front.clear();
    ParetoFront all;
    for (const Option& option : node.options)
        for (const ParetoPoint& behind : node.front_behind) {
            const Picovolts reach = std::min(behind.reach - option.lost, node.most_before);
            if (reach < node.least_before) break;
            const ParetoPoint point{reach, behind.total + TreeCost{option.cost, option.lost}};
            if (node.bound.excess(point) <= node.gap) all.push_back(point);
        }
    std::sort(all.begin(), all.end(), [](const ParetoPoint& a, const ParetoPoint& b) {
        return a.reach != b.reach ? a.reach > b.reach : a.total < b.total;
    });
    for (const ParetoPoint& point : all)
        if (node.front.empty() || point.total < node.front.back().total) node.front.push_back(point);
}

/// Branch and bound by gap: first 1/32 of the gap between the rounded choice and the bound, then double it where no answer
/// is proven to be the least.
void build_all_fronts(std::vector<Node>& nodes, const std::vector<std::size_t>& order,
                      const std::vector<std::size_t>& known) {
    const std::vector<double> costs = costs_by_source(nodes, known);
    // NOLINTNEXTLINE(clang-analyzer-security.FloatLoopCounter): powers of two, exact
    for (double share = 1.0 / 32.0; share <= 1.0; share *= 2.0) {
        for (auto i = order.rbegin(); i != order.rend(); ++i) {
            Node& node = nodes[*i];
            Node& source = nodes[node.source];
            if (!source.front.empty()) continue;
            const double gap = share * (costs[node.source] - source.bound.base);
            // What rounding does to the lines is far less than a thousand millionth.
            node.gap = gap + 1e-9 * costs[node.source] + 1.0;
            build_front_behind(nodes, node);
            build_front(node);
            // Nothing is lost before a source, so it has one point. Above the gap a better answer may have been dropped.
            const bool last = share == 1.0;
            if (&node == &source && !last && !node.front.empty() && node.bound.excess(node.front.front()) > gap)
                node.front.clear();
        }
    }
}

/// From the sources: the earliest option that has the least cost where the run begins.
void trace_back(const std::vector<Node>& nodes, const std::vector<FedRun>& runs, const std::vector<std::size_t>& order,
                std::vector<std::size_t>& choice) {
    std::vector<Picovolts> after(nodes.size());
    for (const std::size_t i : order) {
        const Node& node = nodes[i];
        const Picovolts before = runs[i].fed_by ? after[*runs[i].fed_by] : 0;
        std::optional<TreeCost> least;
        for (std::size_t k = 0; k < node.options.size(); ++k) {
            const Option& option = node.options[k];
            const TreeCost* behind = cost_at(node.front_behind, before + option.lost);
            if (!behind) continue;
            const TreeCost cost = *behind + TreeCost{option.cost, option.lost};
            if (least && *least <= cost) continue;
            least = cost;
            choice[i] = k;
        }
        if (!least) throw std::logic_error("a choice lost on the way back");
        after[i] = before + node.options[choice[i]].lost;
    }
}

bool any_without_options(const std::vector<FedRun>& runs) {
    return std::any_of(runs.begin(), runs.end(), [](const FedRun& run) { return run.options.empty(); });
}

}  // namespace

std::optional<std::vector<std::size_t>> least_cost(const std::vector<FedRun>& runs) {
    check_options(runs);
    const std::vector<std::size_t> order = in_topological_order(runs);
    if (any_without_options(runs)) return {};

    std::vector<Node> nodes = nodes_of(runs, order);
    solve_relaxation(nodes, order);
    for (const std::size_t i : order)
        if (!runs[i].fed_by && nodes[i].relaxed.reach < 0) return {};

    std::vector<std::size_t> choice = round_relaxation(nodes, runs, order);
    find_lower_bounds(nodes, order);
    build_all_fronts(nodes, order, choice);
    trace_back(nodes, runs, order, choice);
    return choice;
}

}  // namespace voltwright

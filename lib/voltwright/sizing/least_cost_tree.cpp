#include "voltwright/sizing/least_cost_tree.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace voltwright::least_cost_tree {

Picovolts in_picovolts(Voltage voltage) { return std::llround(in_volts(voltage) * 1e12); }

namespace {

Picovolts limit_of(const FedRun& run) {
    if (!run.limit || *run.limit >= volts(1e6)) return unlimited;
    return in_picovolts(std::max(*run.limit, volts(-1.0)));
}

/// How many of the units in which costs are counted go into a cost of one: a power of ten.
double units_in_one(const std::vector<FedRun>& runs) {
    double all = 0.0;
    for (const FedRun& run : runs) {
        double most = 0.0;
        for (const SizeOption& option : run.options) most = std::max(most, option.cost);
        all += most;
    }
    if (!std::isfinite(all)) throw std::logic_error("costs that add up to more than can be counted");
    if (all == 0.0) return 1.0;
    return std::pow(10.0, std::clamp(14.0 - std::floor(std::log10(all)), -300.0, 300.0));
}

/// The lower left hull of a run's options.
std::vector<std::size_t> hull_of(const std::vector<Option>& options) {
    std::vector<std::size_t> sorted(options.size());
    for (std::size_t i = 0; i < sorted.size(); ++i) sorted[i] = i;
    std::sort(sorted.begin(), sorted.end(), [&](std::size_t a, std::size_t b) {
        return std::pair(options[a].lost, options[a].cost) < std::pair(options[b].lost, options[b].cost);
    });
    const auto saving = [&](std::size_t from, std::size_t to) {
        return static_cast<double>(options[from].cost - options[to].cost) /
               static_cast<double>(options[to].lost - options[from].lost);
    };
    std::vector<std::size_t> hull;
    for (const std::size_t i : sorted) {
        if (!hull.empty() && options[i].cost >= options[hull.back()].cost) continue;
        while (hull.size() > 1 && saving(hull[hull.size() - 2], hull.back()) <= saving(hull.back(), i)) hull.pop_back();
        hull.push_back(i);
    }
    return hull;
}

}  // namespace

void check_options(const std::vector<FedRun>& runs) {
    double all = 0.0;
    for (const FedRun& run : runs) {
        double most = 0.0;
        for (const SizeOption& option : run.options) {
            const double lost = in_volts(option.lost);
            if (!std::isfinite(option.cost) || option.cost < 0.0)
                throw std::logic_error("a size without a proper cost");
            if (!std::isfinite(lost) || lost < 0.0) throw std::logic_error("a size without a proper loss");
            most = std::max(most, lost);
        }
        if (run.limit && std::isnan(in_volts(*run.limit))) throw std::logic_error("a limit that is not a number");
        all += most;
    }
    if (all >= 1e6) throw std::logic_error("more volts lost than can be counted");
}

std::vector<std::size_t> in_topological_order(const std::vector<FedRun>& runs) {
    std::vector<std::vector<std::size_t>> feeds(runs.size());
    std::vector<std::size_t> order;
    order.reserve(runs.size());
    for (std::size_t i = 0; i < runs.size(); ++i) {
        if (!runs[i].fed_by)
            order.push_back(i);
        else if (*runs[i].fed_by < runs.size())
            feeds[*runs[i].fed_by].push_back(i);
        else
            throw std::logic_error("a run fed by one that is not there");
    }
    for (std::size_t done = 0; done < order.size(); ++done)
        order.insert(order.end(), feeds[order[done]].begin(), feeds[order[done]].end());
    if (order.size() != runs.size()) throw std::logic_error("runs that feed one another in a circle");
    return order;
}

std::vector<Node> nodes_of(const std::vector<FedRun>& runs, const std::vector<std::size_t>& order) {
    const double units = units_in_one(runs);
    std::vector<Node> nodes(runs.size());
    for (const std::size_t i : order) {
        Node& node = nodes[i];
        node.options.reserve(runs[i].options.size());
        for (const SizeOption& option : runs[i].options)
            node.options.push_back({std::llround(option.cost * units), in_picovolts(option.lost)});
        const auto [least, most] = std::minmax_element(
            node.options.begin(), node.options.end(), [](const Option& a, const Option& b) { return a.lost < b.lost; });
        node.least_lost = least->lost;
        node.most_lost = most->lost;
        node.hull = hull_of(node.options);
        node.limit = limit_of(runs[i]);
        node.source = i;
        if (!runs[i].fed_by) continue;
        Node& feeder = nodes[*runs[i].fed_by];
        node.source = feeder.source;
        feeder.feeds.push_back(i);
        node.least_before = feeder.least_before + feeder.least_lost;
        node.most_before = feeder.most_before + feeder.most_lost;
    }
    return nodes;
}

}  // namespace voltwright::least_cost_tree

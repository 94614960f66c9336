#include "voltwright/report/wiring_tree.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

constexpr std::size_t deepest = 60;  // of runs behind each other

/// The runs that lead from one place to another, or none.
std::vector<std::size_t> runs_between(const std::vector<RunPlan>& runs, PlaceKind from, PlaceKind to) {
    std::vector<std::size_t> way;
    Place place = the(to);
    while (place.kind != from && way.size() <= deepest) {
        const auto found = std::find_if(runs.begin(), runs.end(), [&](const RunPlan& run) {
            return run.task.to == place && run.task.from.kind != PlaceKind::regulator;
        });
        if (found == runs.end()) return {};
        way.insert(way.begin(), static_cast<std::size_t>(found - runs.begin()));
        place = found->task.from;
    }
    return place.kind == from ? way : std::vector<std::size_t>{};
}

bool leads_to_charger(const WiringTree& tree, std::size_t node) {
    const WiringNode& here = tree.nodes[node];
    return here.place.kind == PlaceKind::charger ||
           std::any_of(here.branches.begin(), here.branches.end(),
                       [&](const WiringBranch& branch) { return leads_to_charger(tree, branch.node); });
}

/// Everything that hangs from a place; what leads to the charger stands last, beside the line that goes on from it.
std::size_t grow(WiringTree& tree, const std::vector<RunPlan>& runs, std::vector<bool>& used, const Place& place,
                 std::size_t level) {
    const std::size_t node = tree.nodes.size();
    tree.nodes.push_back({place, {}});
    if (level >= deepest || place.kind == PlaceKind::charger) return node;
    std::vector<WiringBranch> found;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const SystemRun& task = runs[i].task;
        if (used[i] || !(task.from == place || task.to == place)) continue;
        used[i] = true;
        found.push_back({&runs[i], {}, 0});
    }
    for (WiringBranch& branch : found) {
        const SystemRun& task = branch.run->task;
        branch.node = grow(tree, runs, used, task.from == place ? task.to : task.from, level + 1);
    }
    std::stable_partition(found.begin(), found.end(),
                          [&](const WiringBranch& branch) { return !leads_to_charger(tree, branch.node); });
    tree.nodes[node].branches = std::move(found);
    return node;
}

/// What has no run of its own: loads at the battery or behind the inverter.
void add_without_runs(WiringTree& tree, const System& system) {
    const auto add = [&](std::size_t to, Place place, const std::string& note) {
        tree.nodes.push_back({std::move(place), {}});
        tree.nodes[to].branches.push_back({nullptr, note, tree.nodes.size() - 1});
    };
    for (const std::string& load : system.unfed) add(tree.battery, {PlaceKind::consumer, load}, "no run is given");
    const auto inverter = std::find_if(tree.nodes.begin(), tree.nodes.end(),
                                       [](const WiringNode& node) { return node.place.kind == PlaceKind::inverter; });
    if (inverter == tree.nodes.end()) return;
    const auto at = static_cast<std::size_t>(inverter - tree.nodes.begin());
    for (const LoadUnit& load : system.loads)
        if (load.through_inverter) add(at, {PlaceKind::consumer, load.name}, "mains, from the inverter");
}

}  // namespace

WiringTree wiring_tree(const Plan& plan, const System& system) {
    WiringTree tree;
    std::vector<bool> used(plan.runs.size(), false);
    for (const std::size_t run : runs_between(plan.runs, PlaceKind::charger, PlaceKind::house_battery)) {
        used[run] = true;
        tree.output.push_back(&plan.runs[run]);
    }
    tree.starter = grow(tree, plan.runs, used, the(PlaceKind::starter_battery), 0);
    tree.battery = grow(tree, plan.runs, used, the(PlaceKind::house_battery), 0);
    add_without_runs(tree, system);
    for (std::size_t i = 0; i < used.size(); ++i)
        if (!used[i]) tree.apart.push_back(&plan.runs[i]);
    return tree;
}

std::size_t depth_of(const WiringTree& tree, std::size_t node) {
    std::size_t most = 0;
    for (const WiringBranch& branch : tree.nodes[node].branches)
        if (!tree.nodes[branch.node].branches.empty()) most = std::max(most, 1 + depth_of(tree, branch.node));
    return most;
}

}  // namespace voltwright

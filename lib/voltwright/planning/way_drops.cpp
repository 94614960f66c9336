#include "voltwright/planning/way_drops.hpp"

#include "voltwright/circuit/network.hpp"
#include "voltwright/planning/shared_ways.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

void settle_at(int minute, std::vector<RunPlan>& runs, const RunTree& tree, std::size_t root) {
    std::vector<NetworkSection> sections;
    std::vector<std::size_t> members;
    std::vector<std::optional<std::size_t>> number(runs.size());
    for (const std::size_t i : tree.order) {
        const RunPlan& run = runs[i];
        if (!run.way || tree.root[i] != root) continue;
        NetworkSection section{{}, run.taken()->drop->resistance.loop, {}};
        if (tree.before[i]) section.from = number[*tree.before[i]];
        if (run.task.role != RunRole::trunk && is_on(run.task, minute)) section.loads.push_back(law_of(run.task.load));
        number[i] = members.size();
        members.push_back(i);
        sections.push_back(std::move(section));
    }
    if (members.empty()) return;
    const auto settled = solve_network(runs[members.front()].task.supply.normal, sections);
    for (std::size_t m = 0; m < members.size(); ++m) {
        WayDrop& way = *runs[members[m]].way;
        if (!settled) way.collapses = true;
        if (!settled || !is_on(runs[members[m]].task, minute)) continue;
        way.far_end = std::min(way.far_end.value_or(settled->far_end[m]), settled->far_end[m]);
    }
}

}  // namespace

void note_way_drops(std::vector<RunPlan>& runs, const RunTree& tree) {
    for (const std::size_t i : tree.order) {
        RunPlan& run = runs[i];
        if (!tree.shares(i) || !run.taken() || !run.taken()->drop) continue;
        Voltage lost = counted_loss(run, *run.taken());
        if (tree.before[i]) {
            // Behind a trunk without a size nothing is known of the way.
            if (!runs[*tree.before[i]].way) continue;
            lost += runs[*tree.before[i]].way->lost;
        }
        run.way = WayDrop{lost, allowed_loss(run.task), {}, false};
    }
    std::vector<const SystemRun*> all;
    for (const RunPlan& run : runs) all.push_back(&run.task);
    const std::vector<int> minutes = minutes_of_change(all);
    for (const std::size_t root : tree.order)
        if (tree.shares(root) && !tree.before[root])
            for (const int minute : minutes) settle_at(minute, runs, tree, root);
}

}  // namespace voltwright

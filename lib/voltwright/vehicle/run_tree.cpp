#include "voltwright/vehicle/run_tree.hpp"

#include <algorithm>

namespace voltwright {

bool RunTree::leads_through(std::size_t run, std::size_t through) const {
    for (std::optional<std::size_t> at = run; at; at = before[*at])
        if (*at == through) return true;
    return false;
}

std::vector<std::size_t> RunTree::from(std::size_t run) const {
    std::vector<std::size_t> all = {run};
    for (const std::size_t next : after[run]) {
        const std::vector<std::size_t> more = from(next);
        all.insert(all.end(), more.begin(), more.end());
    }
    return all;
}

RunTree run_tree(std::span<const RunEnds> runs) {
    RunTree tree;
    tree.before.resize(runs.size());
    tree.after.resize(runs.size());
    tree.root.resize(runs.size());
    for (std::size_t i = 0; i < runs.size(); ++i) {
        if (is_source(runs[i].from)) continue;
        const auto before =
            std::find_if(runs.begin(), runs.end(), [&](const RunEnds& one) { return one.to == runs[i].from; });
        if (before == runs.end()) continue;
        tree.before[i] = static_cast<std::size_t>(before - runs.begin());
        tree.after[*tree.before[i]].push_back(i);
    }
    std::vector<bool> placed(runs.size(), false);
    for (std::size_t i = 0; i < runs.size(); ++i) {
        std::vector<std::size_t> way;
        for (std::optional<std::size_t> at = i; at && !placed[*at]; at = tree.before[*at]) {
            way.push_back(*at);
            placed[*at] = true;
        }
        tree.order.insert(tree.order.end(), way.rbegin(), way.rend());
    }
    for (const std::size_t i : tree.order) tree.root[i] = tree.before[i] ? tree.root[*tree.before[i]] : i;
    return tree;
}

}  // namespace voltwright

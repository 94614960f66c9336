#include "voltwright/planning/cables.hpp"

#include "voltwright/planning/link_choice.hpp"
#include "voltwright/planning/shared_ways.hpp"
#include "voltwright/planning/way_drops.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

/// Rounds after which what one fuse asks of another run's cable has settled, or never does.
constexpr int most_rounds = 6;
/// As many as the two runs of a link have sizes, and some for their warmth to settle.
constexpr int most_link_rounds = 100;

/// What cables are chosen from and for.
struct Asked {
    const System& system;
    const Tables& tables;
    Ladder ladder;
    const Objective* objective;
};

std::vector<RunPlan> unchosen(const System& system) {
    std::vector<RunPlan> runs;
    runs.reserve(system.runs.size());
    for (const SystemRun& task : system.runs) runs.emplace_back(RunPlan{task, {}, {}});
    return runs;
}

/// The run alone: its ladder, and where it shares no way and something has a price the cheapest size.
void judge(const Asked& asked, std::size_t i, std::vector<RunPlan>& runs) {
    RunPlan& run = runs[i];
    const bool shares = asked.system.tree.shares(i);
    run.choice = choose_cable(run.task.run, run.task.load, run.task.supply, asked.system.rules, asked.tables,
                              shares ? Ladder::whole : asked.ladder);
    if (!asked.objective || run.choice.given) return;
    run.costs.clear();
    for (const Candidate& candidate : run.choice.ladder)
        run.costs.push_back(asked.objective->cost(asked.system, run.task, candidate, asked.tables));
    if (shares) return;
    const std::vector<std::size_t> sizes = sizes_for_sale(run, *asked.objective);
    run.for_money = !sizes.empty();
    if (sizes.empty()) return;
    // The last of those that cost the same: the thicker.
    take(run, *std::min_element(sizes.rbegin(), sizes.rend(),
                                [&](std::size_t a, std::size_t b) { return *run.costs[a] < *run.costs[b]; }));
}

/// Judged as it stands, so that what it fails is told.
void judge_as_taken(const Asked& asked, RunPlan& run) {
    if (!run.taken()) return;
    const Gauge size = run.taken()->size;
    run.choice =
        choose_cable(run.task.run, run.task.load, run.task.supply, asked.system.rules, asked.tables, Ladder::whole);
    const auto same = std::find_if(run.choice.ladder.begin(), run.choice.ladder.end(),
                                   [&](const Candidate& one) { return one.size == size; });
    run.choice.taken = static_cast<std::size_t>(same - run.choice.ladder.begin());
}

/// Sets what lies before each run, and returns the runs for which that is not what it was.
std::vector<std::size_t> see_what_lies_before(std::vector<RunPlan>& runs, const RunTree& tree) {
    std::vector<std::size_t> changed;
    for (const std::size_t i : tree.order) {
        if (!tree.before[i]) continue;
        const RunPlan& before = runs[*tree.before[i]];
        Upstream now = before.task.run.upstream;
        if (const Candidate* taken = before.taken()) {
            now.cold += taken->cold_loop;
            now.hot += taken->hot_loop;
            for (const FuseFit& fuse : taken->fuses)
                if (const Current own = fuse.fault.breaking_capacity.value; fuse.fault.expected.current <= own)
                    now.breaks = std::max(now.breaks, own);
        }
        Upstream& known = runs[i].task.run.upstream;
        if (now.cold == known.cold && now.hot == known.hot && now.breaks == known.breaks) continue;
        known = now;
        changed.push_back(i);
    }
    return changed;
}

/// The two runs of a relay's link, if there is one.
std::vector<std::size_t> choose_link(const Asked& asked, std::vector<RunPlan>& runs) {
    const auto link = link_choice(asked.system, asked.tables);
    if (!link) return {};
    begin_link(*link, runs);
    const std::vector<std::size_t> both = {link->feed, link->output};
    const Asked whole{asked.system, asked.tables, Ladder::whole, asked.objective};
    for (int round = 0; round < most_link_rounds; ++round) {
        for (const std::size_t i : both) judge(whole, i, runs);
        if (!settle_link(*link, runs, asked.tables)) break;
    }
    end_link(*link, asked.system, runs, asked.tables);
    return both;
}

void choose(const Asked& asked, std::vector<RunPlan>& runs) {
    const RunTree& tree = asked.system.tree;
    std::vector<std::size_t> to_judge = tree.order;
    for (const std::size_t chosen : choose_link(asked, runs)) std::erase(to_judge, chosen);
    for (int round = 0; round < most_rounds && !to_judge.empty(); ++round) {
        for (const std::size_t i : to_judge) judge(asked, i, runs);
        choose_shared_ways(runs, tree, asked.tables, asked.objective);
        to_judge = see_what_lies_before(runs, tree);
    }
    for (const std::size_t i : to_judge) judge_as_taken(asked, runs[i]);
}

/// As if all cable that is to be bought were of this class.
void buy(Temperature insulation, const std::vector<RunPlan>& chosen, const Asked& asked, std::vector<RunPlan>& runs) {
    for (std::size_t i = 0; i < runs.size(); ++i) {
        CableRun& run = runs[i].task.run;
        if (run.have_cable || run.insulation <= insulation) continue;
        run.insulation = insulation;
        run.insulation_material.clear();
        const Candidate* before = chosen[i].to_lay();
        if (!asked.system.tree.shares(i) && !asked.objective && !run.given && before) run.at_least = before->area;
    }
}

}  // namespace

std::vector<RunPlan> choose_cables(const System& system, const Tables& tables, Ladder ladder,
                                   const Objective* objective) {
    std::vector<RunPlan> runs = unchosen(system);
    choose({system, tables, objective ? Ladder::whole : ladder, objective}, runs);
    note_way_drops(runs, system.tree);
    return runs;
}

std::vector<RunPlan> choose_again(const System& system, const std::vector<RunPlan>& chosen, Temperature insulation,
                                  const Tables& tables, const Objective* objective) {
    const Asked asked{system, tables, objective ? Ladder::whole : Ladder::first, objective};
    std::vector<RunPlan> runs = unchosen(system);
    buy(insulation, chosen, asked, runs);
    choose(asked, runs);
    return runs;
}

}  // namespace voltwright

#include "voltwright/planning/link_choice.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// Currents closer than this are the same.
constexpr Current same_current = amperes(1e-4);
constexpr Current no_change = amperes(1e-9);
constexpr int rounds_for_warmth = 50;

Resistance warm_loop(const Candidate& taken) { return taken.resistance().loop; }

/// The fuse of one run feeds a fault in the other, whose cable has to carry it: the next thicker size, where one is chosen.
bool thicker_for(const Candidate& other, RunPlan& run) {
    const Candidate& taken = *run.taken();
    if (run.choice.given || other.fuses.empty() || !taken.ampacity) return false;
    if (other.fuses.front().rating <= taken.ampacity->current) return false;
    for (const Candidate& candidate : run.choice.ladder) {
        if (!(candidate.area > taken.area)) continue;
        run.task.run.at_least = candidate.area;
        return true;
    }
    return false;
}

/// What is fed through the other run when its own fuse has not cleared it.
bool set_downstream(const RunPlan& other, RunPlan& run, const Tables& tables) {
    const Candidate& taken = *other.taken();
    const Downstream now{taken.hot_loop, conductors_of(other.task.run, taken.size, tables).thinner().area};
    Downstream& known = run.task.run.downstream;
    if (known.hot == now.hot && known.thinnest == now.thinnest) return false;
    known = now;
    return true;
}

/// What both runs are held against.
bool set_design(const LinkFlow& flow, RunPlan& run) {
    auto& load = std::get<SteadyLoad>(run.task.load);
    load.link = flow.worst;
    const Current most = load.most.value_or(Current{});
    if (!(flow.worst.current > most + same_current)) return false;
    load.most = flow.worst.current;
    return true;
}

}  // namespace

std::optional<LinkChoice> link_choice(const System& system, const Tables& tables) {
    if (!system.relay) return {};
    const auto of_role = [&](RunRole role) {
        const auto found = std::find_if(system.runs.begin(), system.runs.end(),
                                        [role](const SystemRun& run) { return run.role == role; });
        return static_cast<std::size_t>(found - system.runs.begin());
    };
    return LinkChoice{of_role(RunRole::feed), of_role(RunRole::output), link_ends(system, tables)};
}

void begin_link(const LinkChoice& link, std::vector<RunPlan>& runs) {
    for (const std::size_t i : {link.feed, link.output})
        runs[i].task.load = SteadyLoad{.current = judged_current(link.ends), .most = judged_current(link.ends)};
}

bool settle_link(const LinkChoice& link, std::vector<RunPlan>& runs, const Tables& tables) {
    RunPlan &feed = runs[link.feed], &output = runs[link.output];
    if (!feed.taken() || !output.taken()) return false;
    const Candidate &first = *feed.taken(), &second = *output.taken();
    const LinkFlow flow =
        link_flow(link.ends, {first.cold_loop + second.cold_loop, warm_loop(first) + warm_loop(second)});
    feed.link = output.link = flow;
    const bool passes = !feed.choice.nothing_fits() && !output.choice.nothing_fits();
    bool changed = passes && set_design(flow, feed);
    changed = (passes && set_design(flow, output)) || changed;
    changed = set_downstream(output, feed, tables) || changed;
    changed = set_downstream(feed, output, tables) || changed;
    changed = thicker_for(first, output) || changed;
    return thicker_for(second, feed) || changed;
}

void end_link(const LinkChoice& link, const System& system, std::vector<RunPlan>& runs, const Tables& tables) {
    RunPlan &feed = runs[link.feed], &output = runs[link.output];
    if (!feed.link) return;
    const WarmRun first = warm_run(feed.task.run, *feed.taken(), system.rules, tables);
    const WarmRun second = warm_run(output.task.run, *output.taken(), system.rules, tables);
    LinkCurrent& usual = feed.link->usual;
    // As warm as the current makes it, which that lessens: a few rounds.
    for (int round = 0; round < rounds_for_warmth; ++round) {
        const Current before = usual.current;
        const Resistance loop = first.loop(first.at(before)) + second.loop(second.at(before));
        usual = link_flow(link.ends, {feed.link->worst.loop, loop}).usual;
        if (abs(usual.current - before) < no_change) break;
    }
    output.link->usual = usual;
    for (RunPlan* run : {&feed, &output}) std::get<SteadyLoad>(run->task.load).current = usual.current;
    feed.task.supply.normal = usual.source;
    output.task.supply.normal = output.task.supply.lowest =
        usual.source - first.loop(first.at(usual.current)) * usual.current;
}

}  // namespace voltwright

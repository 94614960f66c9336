#include "voltwright/planning/run_network.hpp"

#include "voltwright/circuit/network.hpp"
#include "voltwright/units/clock.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

/// Rounds after which warmth and current have settled, or run away.
constexpr int rounds_to_settle = 1000;

/// A run of a tree, as its network sees it.
struct Member {
    std::size_t run;
    std::optional<std::size_t> from;  ///< the member at whose end it begins
    WarmRun warm;
    std::optional<LoadLaw> load = {};                    ///< empty: a trunk
    std::optional<Current> limit = {};                   ///< of a charger's input
    std::optional<WarmRun::Temperatures> reported = {};  ///< conductors of the figures that it has already
};

/// The runs that hang on one source by one first run.
struct Tree {
    Voltage source;
    std::vector<Member> members;
};

struct Solved {
    NetworkAnswer answer;
    std::vector<NetworkSection> sections;
    std::vector<WarmRun::Temperatures> conductors;
    std::vector<bool> shed;
};

/// A run without a size is left out, with all behind it.
Tree tree_of(const std::vector<RunPlan>& runs, std::size_t root, const System& system, const Tables& tables) {
    Tree tree{runs[root].task.supply.normal, {}};
    std::vector<std::optional<std::size_t>> number(runs.size());
    for (const std::size_t i : system.tree.from(root)) {
        const SystemRun& task = runs[i].task;
        const Candidate* taken = runs[i].taken();
        const auto& before = system.tree.before[i];
        if (!taken || (before && !number[*before])) continue;
        Member member{i, before ? number[*before] : std::nullopt, warm_run(task.run, *taken, system.rules, tables)};
        if (task.role != RunRole::trunk) member.load = law_of(task.load);
        if (const auto* charger = std::get_if<ConverterLoad>(&task.load)) member.limit = charger->input_limit;
        number[i] = tree.members.size();
        tree.members.push_back(std::move(member));
    }
    return tree;
}

bool leads_through(const Tree& tree, std::size_t member, std::size_t through) {
    for (std::optional<std::size_t> at = member; at; at = tree.members[*at].from)
        if (*at == through) return true;
    return false;
}

/// What a load draws at the source's voltage.
Current asked(const Member& member, Voltage source) {
    const Current all = current_at(*member.load, source);
    return member.limit ? std::min(all, *member.limit) : all;
}

/// One tree of runs, and what was chosen for them. Only reads.
struct Network {
    const Tree& tree;
    const std::vector<RunPlan>& runs;

    [[nodiscard]] bool draws(std::size_t member, int minute) const {
        return tree.members[member].load && is_on(runs[tree.members[member].run].task, minute);
    }
};

/// Whether anything behind a run is on.
bool carries(const Network& network, std::size_t member, int minute) {
    for (std::size_t m = member; m < network.tree.members.size(); ++m)
        if (network.draws(m, minute) && leads_through(network.tree, m, member)) return true;
    return false;
}

int busiest_of(const Network& network, const std::vector<int>& minutes) {
    int busiest = minutes.front();
    std::optional<Current> most;
    for (const int minute : minutes) {
        Current sum{};
        for (std::size_t m = 0; m < network.tree.members.size(); ++m)
            if (network.draws(m, minute)) sum += asked(network.tree.members[m], network.tree.source);
        if (!most || sum > *most) {
            most = sum;
            busiest = minute;
        }
    }
    return busiest;
}

/// A run that has its figures stays as warm as they say, so that all figures of a tree go by the resistances reported.
/// Resistance heats with the current and the current grows with the resistance: repeated substitution from the cold
/// side. False where that runs away, or the loads cannot be fed.
bool settle(const Tree& tree, Solved& solved) {
    solved.conductors.clear();
    for (const Member& member : tree.members)
        solved.conductors.push_back(
            member.reported.value_or(WarmRun::Temperatures{member.warm.around, member.warm.around}));
    for (int round = 0; round < rounds_to_settle; ++round) {
        for (std::size_t m = 0; m < tree.members.size(); ++m)
            solved.sections[m].loop = tree.members[m].warm.loop(solved.conductors[m]);
        auto answer = solve_network(tree.source, solved.sections);
        if (!answer) return false;
        solved.answer = *std::move(answer);
        bool still = true;
        for (std::size_t m = 0; m < tree.members.size(); ++m) {
            if (tree.members[m].reported) continue;
            const auto next = tree.members[m].warm.at(solved.answer.current[m]);
            still = still && abs(next.out - solved.conductors[m].out) < kelvins(1e-6) &&
                    abs(next.back - solved.conductors[m].back) < kelvins(1e-6);
            if (!still) solved.conductors[m] = next;
        }
        if (still) return true;
    }
    return false;
}

/// A charger that would take more than its limit is solved again as that current.
std::optional<Solved> solve_without(const Network& network, int minute, const std::vector<bool>& shed) {
    const std::vector<Member>& members = network.tree.members;
    Solved solved{{}, {}, {}, shed};
    for (std::size_t m = 0; m < members.size(); ++m) {
        NetworkSection section{members[m].from, {}, {}};
        if (!shed[m] && network.draws(m, minute)) section.loads.push_back(*members[m].load);
        solved.sections.push_back(std::move(section));
    }
    const auto settled = settle(network.tree, solved);
    bool limited = false;
    for (std::size_t m = 0; m < members.size(); ++m) {
        if (!members[m].limit || solved.sections[m].loads.empty()) continue;
        if (settled && solved.answer.current[m] <= *members[m].limit) continue;
        solved.sections[m].loads = {LoadLaw{*members[m].limit}};
        limited = true;
    }
    if (settled && !limited) return solved;
    if (!limited || !settle(network.tree, solved)) return {};
    return solved;
}

/// All that is on at a minute, without those whose power cannot be brought: of them the one that asks for most goes first.
std::optional<Solved> solve(const Network& network, int minute) {
    const std::vector<Member>& members = network.tree.members;
    const auto asks = [&](std::size_t m) { return asked(members[m], network.tree.source); };
    std::vector<bool> shed(members.size(), false);
    for (std::size_t m = 0; m < members.size(); ++m)
        shed[m] = network.draws(m, minute) && !network.runs[members[m].run].taken()->drop;
    while (true) {
        if (auto solved = solve_without(network, minute, shed)) return solved;
        std::optional<std::size_t> most;
        for (std::size_t m = 0; m < members.size(); ++m)
            if (!shed[m] && network.draws(m, minute) && (!most || asks(m) > asks(*most))) most = m;
        if (!most) return {};
        shed[*most] = true;
    }
}

NetworkFigures figures_of(const Network& network, std::size_t m, const Solved& solved) {
    const std::vector<Member>& members = network.tree.members;
    const RunPlan& run = network.runs[members[m].run];
    const Candidate& taken = *run.taken();
    const Current current = solved.answer.current[m];
    const Voltage far_end = solved.answer.far_end[m];
    const Voltage begins = members[m].from ? solved.answer.far_end[*members[m].from] : network.tree.source;
    RunResistance resistance = resistance_of(members[m].warm, taken.resistance(), solved.conductors[m]);
    const Voltage cable = current * resistance.cable, joints = current * resistance.all_joints;
    const Voltage drop = begins - far_end;
    NetworkFigures figures{.source = network.tree.source,
                           .begins = begins,
                           .shares = {},
                           .resistance = std::move(resistance),
                           .current = current,
                           .drop = drop,
                           .cable_drop = cable,
                           .joint_drop = joints,
                           .share = drop / nominal_voltage,
                           .far_end = far_end,
                           .way_drop = network.tree.source - far_end,
                           .heat = current * drop,
                           .temperature = conductor_temperature(run.task.run, taken, current),
                           .at = {},
                           .apart = false};
    for (std::size_t k = m; k < members.size(); ++k)
        if (!solved.sections[k].loads.empty() && leads_through(network.tree, k, m))
            figures.shares.push_back({network.runs[members[k].run].task.to.name, solved.answer.current[k]});
    return figures;
}

/// The minutes of the day at which something of the tree is switched on.
std::vector<int> minutes_of(const Tree& tree, const std::vector<RunPlan>& runs) {
    std::vector<const SystemRun*> own;
    for (const Member& member : tree.members) own.push_back(&runs[member.run].task);
    return minutes_of_change(own);
}

/// First as they are at the busiest minute, then what is off then at the busiest of its own.
void note_tree(Tree tree, std::vector<RunPlan>& runs) {
    const Network network{tree, runs};
    const std::vector<int> minutes = minutes_of(tree, runs);
    const bool kept_apart = std::any_of(minutes.begin(), minutes.end(), [&](int minute) {
        return std::any_of(tree.members.begin(), tree.members.end(),
                           [&](const Member& one) { return one.load && !is_on(runs[one.run].task, minute); });
    });
    const auto report = [&](std::size_t m, const Solved& solved, std::optional<int> minute, bool apart) {
        if (tree.members[m].load && solved.shed[m]) return;
        NetworkFigures figures = figures_of(network, m, solved);
        figures.apart = apart;
        if (minute) figures.at = clock_of(voltwright::minutes(*minute));
        tree.members[m].reported = solved.conductors[m];
        runs[tree.members[m].run].figures = std::move(figures);
    };
    const int busiest = busiest_of(network, minutes);
    const auto all = solve(network, busiest);
    for (std::size_t m = 0; m < tree.members.size(); ++m)
        if (all && carries(network, m, busiest))
            report(m, *all, kept_apart ? std::optional(busiest) : std::nullopt, false);
    for (std::size_t m = 0; m < tree.members.size(); ++m) {
        if (carries(network, m, busiest)) continue;
        std::vector<int> own = minutes;
        std::erase_if(own, [&](int minute) { return !carries(network, m, minute); });
        if (own.empty()) continue;
        const int then = busiest_of(network, own);
        if (const auto others = solve(network, then)) report(m, *others, then, true);
    }
}

}  // namespace

void note_network(std::vector<RunPlan>& runs, const System& system, const Tables& tables) {
    for (std::size_t i = 0; i < runs.size(); ++i)
        if (!system.tree.before[i]) note_tree(tree_of(runs, i, system, tables), runs);
}

}  // namespace voltwright

#include "voltwright/planning/plan.hpp"

#include "voltwright/planning/findings.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

bool Plan::holds() const {
    return std::none_of(findings.begin(), findings.end(),
                        [](const Finding& finding) { return finding.level == Level::stop; });
}

std::vector<std::string> Plan::assumed() const {
    std::vector<std::string> names;
    for (const RunPlan& run : runs)
        if (run.task.assumed) names.push_back(*run.task.run.name);
    return names;
}

namespace {

std::vector<std::string> not_judged(const System& system, const std::vector<RunPlan>& runs) {
    std::vector<std::string> list = {
        "how long the fridge runs, and whether the trip holds",
        "whether each fuse clears a dead short at the far end within 5 s, and whether the cable withstands it until "
        "then",
        "starting currents, and fuses in series",
    };
    if (std::any_of(runs.begin(), runs.end(), [](const RunPlan& run) { return run.task.role == RunRole::trunk; }))
        list.emplace_back("trunk and branches together: each run here gets a share of the allowed drop by its length");
    if (std::any_of(runs.begin(), runs.end(), [](const RunPlan& run) { return !run.sized(); }))
        list.emplace_back("the cables between panel, regulator and battery");
    if (system.complete.solar) list.emplace_back("the sun");
    return list;
}

}  // namespace

Plan make_plan(const System& system, const Tables& tables) {
    Plan plan{.title = system.title, .runs = {}, .findings = {}, .not_judged = {}};
    plan.runs.reserve(system.runs.size());
    for (const SystemRun& task : system.runs) {
        RunPlan run{task, {}};
        if (run.sized()) run.choice = choose_cable(task.run, task.load, task.supply, system.rules, tables);
        const Findings found = find_in_run(run, system, tables);
        plan.findings.insert(plan.findings.end(), found.begin(), found.end());
        plan.runs.push_back(std::move(run));
    }
    const Findings found = find_in_system(system, plan.runs, tables);
    plan.findings.insert(plan.findings.end(), found.begin(), found.end());
    std::stable_sort(plan.findings.begin(), plan.findings.end(),
                     [](const Finding& a, const Finding& b) { return a.level < b.level; });
    plan.not_judged = not_judged(system, plan.runs);
    return plan;
}

}  // namespace voltwright

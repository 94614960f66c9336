#include "voltwright/planning/plan.hpp"

#include "voltwright/planning/assumptions/assume.hpp"
#include "voltwright/planning/cables.hpp"
#include "voltwright/planning/findings/energy_concerns.hpp"
#include "voltwright/planning/findings/find.hpp"
#include "voltwright/planning/run_network.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace voltwright {

bool Plan::holds() const { return !any_stops(findings); }

std::vector<std::string> Plan::assumed() const {
    std::vector<std::string> names;
    for (const RunPlan& run : runs)
        if (run.task.assumed) names.push_back(*run.task.run.name);
    return names;
}

namespace {

std::vector<NotJudged> not_judged(const std::vector<RunPlan>& runs) {
    std::vector<NotJudged> list = {NotJudged::starts_not_given};
    const auto unknown = [](const RunPlan& run) {
        return run.taken() && std::any_of(run.taken()->protection.begin(), run.taken()->protection.end(),
                                          [](const Protection& one) { return !one.known; });
    };
    if (std::any_of(runs.begin(), runs.end(), unknown)) list.push_back(NotJudged::post_fuse_times);
    return list;
}

}  // namespace

std::vector<std::string> served_by(const Plan& plan, const RunPlan& run) {
    std::vector<std::string> names;
    for (const RunPlan& next : plan.runs)
        if (next.task.from == run.task.to) names.push_back(next.task.to.name);
    return names;
}

std::vector<LaidRun> laid_runs(const std::vector<RunPlan>& runs) {
    std::vector<LaidRun> laid;
    for (const RunPlan& run : runs) {
        const Candidate* taken = run.taken();
        if (!taken) continue;
        const bool brings = taken->drop.has_value();
        laid.push_back({run.task.from, run.task.to,
                        brings ? taken->drop->resistance.loop : std::max(taken->cold_loop, taken->hot_loop), brings});
    }
    return laid;
}

namespace {

/// Nothing comes out of the charger.
bool stops_charging(const Finding& finding) {
    return finding.code == FindingCode::charger_does_not_start || finding.code == FindingCode::charger_not_fed ||
           finding.code == FindingCode::charger_hunts ||
           (finding.code == FindingCode::too_cold_to_charge && finding.found == finding.allowed);
}

}  // namespace

std::optional<AutonomyAnswer> autonomy_of(const System& system, const AutonomyQuestion& question,
                                          const Tables& tables) {
    const Plan plan = make_plan(system, tables, {.ladders = Ladder::needed});
    auto answer = answer_autonomy(system, laid_runs(plan.runs), question, tables);
    if (!answer) return answer;
    answer->starter = plan.energy.starter;
    answer->house_idle = plan.energy.house_idle();
    answer->wiring_stops = plan.energy.wiring_stops;
    std::copy_if(plan.findings.begin(), plan.findings.end(), std::back_inserter(answer->stops),
                 [](const Finding& one) { return one.stops() && one.concern == Concern::engine_off; });
    // Discharged to its end it may freeze where the trip does not let it.
    for (const Autonomy* one : {&answer->standard, answer->high ? &*answer->high : nullptr}) {
        if (!one) continue;
        auto freezes = freezing_acid({plan.energy, system, tables}, one->near_freezing);
        if (!freezes) continue;
        freezes->concern = Concern::engine_off;
        answer->stops.push_back(*std::move(freezes));
        break;
    }
    std::copy_if(plan.findings.begin(), plan.findings.end(), std::back_inserter(answer->not_charged), stops_charging);
    assume_new_battery(answer->worn, answer->assumptions);
    assume_idling(plan.energy, system, answer->assumptions);
    return answer;
}

Findings energy_findings(const Findings& all) {
    Findings found;
    std::copy_if(all.begin(), all.end(), std::back_inserter(found),
                 [](const Finding& one) { return one.concern != Concern::wiring; });
    return found;
}

Plan make_plan(const System& system, const Tables& tables, PlanDetail detail) {
    const Objective* objective = detail.objective ? &*detail.objective : nullptr;
    Plan plan{.title = system.title,
              .runs = choose_cables(system, tables, detail.ladders, objective),
              .energy = {},
              .findings = {},
              .other_class = {},
              .bank = {},
              .not_judged = {}};
    note_network(plan.runs, system, tables);
    plan.bank = bank_links(system, plan.runs, tables);
    for (std::size_t i = 0; i < plan.runs.size(); ++i) {
        const Findings found = find_in_run(plan.runs[i], run_before(plan.runs, system.tree, i), system, tables);
        plan.findings.insert(plan.findings.end(), found.begin(), found.end());
    }
    plan.other_class = with_usual_class(system, plan.runs, plan.findings, tables, objective);
    plan.energy = plan_energy(system, laid_runs(plan.runs), tables, detail.timeline);
    for (const Findings& found : {find_in_energy(plan.energy, system, tables),
                                  find_in_system(system, plan.runs, tables), find_in_bank(plan.bank)})
        plan.findings.insert(plan.findings.end(), found.begin(), found.end());
    std::stable_sort(plan.findings.begin(), plan.findings.end(),
                     [](const Finding& a, const Finding& b) { return a.level < b.level; });
    plan.energy.findings = energy_findings(plan.findings);
    plan.energy.wiring_stops =
        static_cast<int>(std::count_if(plan.findings.begin(), plan.findings.end(), [](const Finding& one) {
            return one.stops() && one.concern == Concern::wiring;
        }));
    plan.energy.assumptions = assumed_in_energy(plan.energy, system, tables);
    plan.assumptions = assumed_in_wiring(system, plan.runs, tables);
    plan.assumptions.insert(plan.assumptions.end(), plan.energy.assumptions.begin(), plan.energy.assumptions.end());
    plan.not_judged = not_judged(plan.runs);
    if (objective) {
        plan.currency = objective->currency;
        plan.decimals = objective->decimals;
    }
    return plan;
}

}  // namespace voltwright

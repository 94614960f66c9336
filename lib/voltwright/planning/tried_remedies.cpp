#include "voltwright/planning/tried_remedies.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace voltwright {

namespace {

constexpr int most_together = 3;

/// A finding of one thing; of several things there are as many.
using Stop = std::pair<FindingCode, std::string>;

std::vector<Stop> stops_of(const Finding& finding) {
    if (finding.about.names.empty()) return {{finding.code, show(finding.about)}};
    std::vector<Stop> stops;
    for (const std::string& name : finding.about.names) stops.emplace_back(finding.code, name);
    return stops;
}

std::set<Stop> stops_of(const Findings& findings) {
    std::set<Stop> stops;
    for (const Finding& finding : findings)
        if (finding.stops())
            for (Stop& stop : stops_of(finding)) stops.insert(std::move(stop));
    return stops;
}

bool stands(const Findings& findings, const Finding& finding) {
    return std::any_of(findings.begin(), findings.end(), [&](const Finding& other) {
        return other.code == finding.code && other.about == finding.about;
    });
}

/// The first stop that was not there before.
const Finding* new_stop(const Findings& findings, const std::set<Stop>& before) {
    for (const Finding& finding : findings)
        if (finding.stops())
            for (const Stop& stop : stops_of(finding))
                if (!before.contains(stop)) return &finding;
    return nullptr;
}

Change* find_change(Remedy& remedy, const std::string& key) {
    const auto found = std::find_if(remedy.changes.begin(), remedy.changes.end(),
                                    [&](const Change& change) { return change.key == key; });
    return found == remedy.changes.end() ? nullptr : &*found;
}

/// The steps say the values of the later ones.
void say_instead(Remedy& remedy, const Remedy& later) {
    for (const RemedyStep& step : later.steps)
        for (const Argument& argument : step.arguments)
            for (RemedyStep& said : remedy.steps)
                for (Argument& old : said.arguments)
                    if (old.name == argument.name && old.value.index() == argument.value.index()) old = argument;
}

/// Both together: of a key that both change the later value counts.
Remedy with_another(Remedy remedy, const Finding& finding, const FindingSubject& about) {
    std::vector<Change> further;
    for (const Change& change : finding.remedy.changes) {
        if (Change* known = find_change(remedy, change.key))
            known->value = change.value;
        else
            further.push_back(change);
    }
    if (further.empty()) {
        say_instead(remedy, finding.remedy);
        return remedy;
    }
    if (finding.about != about) remedy.steps.push_back({RemedyCode::then_for, {{"then_for", show(finding.about)}}});
    return std::move(remedy) + Remedy{finding.remedy.steps, std::move(further)};
}

/// What a finding's remedy is tried on.
struct Trials {
    std::set<Stop> before;
    const SystemWith& with;
    const std::optional<Objective>& objective;
    const Tables& tables;
};

/// Empty where the changes are refused.
std::optional<Plan> plan_with(const Trials& trials, const std::vector<Change>& changes) {
    const auto changed = trials.with(changes);
    if (!changed) return {};
    return make_plan(*changed, trials.tables, {.objective = trials.objective});
}

void set_change(Remedy& remedy, std::string key, std::string value) {
    if (Change* known = find_change(remedy, key))
        known->value = std::move(value);
    else
        remedy.changes.push_back({std::move(key), std::move(value)});
}

/// Where the way to a run loses too much now: the least thicker cable of that run with which nothing stops that did not before.
std::optional<Remedy> with_thicker_cable(const Trials& trials, const Finding& finding, const Remedy& remedy,
                                         const Plan& plan, const Finding& brought) {
    if (brought.code != FindingCode::way_drop) return {};
    const auto run = std::find_if(plan.runs.begin(), plan.runs.end(), [&](const RunPlan& one) {
        return !one.task.assumed && *one.task.run.name == show(brought.about);
    });
    if (run == plan.runs.end() || !run->taken()) return {};
    const CableRun& way = run->task.run;
    const std::string key = "run." + *way.name + ".";
    for (const Candidate& size : run->choice.ladder) {
        if (size.area <= run->taken()->area) continue;
        Remedy thicker = remedy;
        set_change(thicker, key + "size", show(size.size));
        if (way.have_cable) set_change(thicker, key + "have", way.have_fuse ? "fuse" : "nothing");
        const auto with = plan_with(trials, thicker.changes);
        if (!with || stands(with->findings, finding) || new_stop(with->findings, trials.before)) continue;
        const RemedyStep step{RemedyCode::take_cable, {{"cable", NamedCable{size.size, way.insulation}}}};
        if (finding.about == brought.about)
            say_instead(thicker, Remedy{{step}, {}});
        else {
            thicker.steps.push_back({RemedyCode::then_for, {{"then_for", show(brought.about)}}});
            thicker.steps.push_back(step);
        }
        return thicker;
    }
    return {};
}

/// It cures its finding, and something else stops the plan then.
Remedy that_brings(Remedy remedy, const Finding& brought) {
    remedy.steps.push_back({RemedyCode::brings_another, {{"then_for", show(brought.about)}}});
    remedy.changes.clear();
    return remedy;
}

/// What cures a stop, begun with its own remedy; without anything where that does not.
Remedy tried(const Trials& trials, const Finding& finding) {
    Remedy remedy = finding.remedy;
    for (int together = 1;; ++together) {
        const auto plan = plan_with(trials, remedy.changes);
        if (!plan || stands(plan->findings, finding)) return {};
        const Finding* brought = new_stop(plan->findings, trials.before);
        if (!brought) return remedy;
        if (auto thicker = with_thicker_cable(trials, finding, remedy, *plan, *brought)) return *std::move(thicker);
        if (brought->remedy.changes.empty() || together == most_together) return that_brings(finding.remedy, *brought);
        remedy = with_another(std::move(remedy), *brought, finding.about);
    }
}

}  // namespace

void try_remedies(Plan& plan, const SystemWith& with, const std::optional<Objective>& objective, const Tables& tables) {
    const Trials trials{stops_of(plan.findings), with, objective, tables};
    bool any = false;
    for (Finding& finding : plan.findings) {
        if (!finding.stops() || finding.remedy.changes.empty()) continue;
        finding.remedy = tried(trials, finding);
        any = true;
    }
    if (any) plan.energy.findings = energy_findings(plan.findings);
}

}  // namespace voltwright

#include "voltwright/planning/replan.hpp"

#include "voltwright/units/show.hpp"

#include <algorithm>

namespace voltwright {

namespace {

std::string shown(const Changed::Value& value) {
    struct {
        std::string operator()(std::monostate) const { return {}; }
        std::string operator()(const std::string& word) const { return word; }
        std::string operator()(const Measure& measure) const { return show(measure); }
    } of;
    return std::visit(of, value);
}

const RunPlan* find_run(const Plan& plan, const std::string& name) {
    const auto found = std::find_if(plan.runs.begin(), plan.runs.end(),
                                    [&](const RunPlan& run) { return *run.task.run.name == name; });
    return found == plan.runs.end() ? nullptr : &*found;
}

std::string fuses_of(const Candidate& candidate) {
    std::string text;
    for (const FuseFit& fuse : candidate.fuses)
        text += (text.empty() ? "" : ", ") + show(fuse.rating) + " " + fuse.family;
    return text.empty() ? "none" : text;
}

/// Adds what a page shows differently.
void add(std::vector<Changed>& changed, std::string about, Aspect what, Changed::Value before, Changed::Value after) {
    if (shown(before) == shown(after)) return;
    changed.push_back({std::move(about), what, std::move(before), std::move(after)});
}

/// Of a run that is sized, with what was taken; nothing of another.
using OfRun = Changed::Value (*)(const RunPlan& run, const Candidate& taken);

struct RunAspect {
    Aspect what;
    OfRun value;
};

constexpr RunAspect run_aspects[] = {
    {Aspect::length,
     [](const RunPlan& run, const Candidate&) {
         return Changed::Value{Measure{static_cast<const Length&>(run.task.run.length)}};
     }},
    {Aspect::size,
     [](const RunPlan& run, const Candidate& taken) {
         return Changed::Value{(run.choice.nothing_fits() ? "no size passes, nearest " : "") +
                               show_cable(taken.size, run.task.run.insulation) +
                               (run.choice.given && !taken.fits() ? ", fails" : "")};
     }},
    {Aspect::fuse, [](const RunPlan&, const Candidate& taken) { return Changed::Value{fuses_of(taken)}; }},
    {Aspect::drop,
     [](const RunPlan& run, const Candidate&) {
         return run.figures ? Changed::Value{Measure{run.figures->drop}}
                            : Changed::Value{std::string("cannot be brought")};
     }},
    {Aspect::worst_current,
     [](const RunPlan& run, const Candidate&) { return Changed::Value{Measure{run.choice.design.current}}; }},
};

void compare_run(const std::string& name, const Plan& before, const Plan& after, std::vector<Changed>& changed) {
    const auto of = [&](const Plan& plan, OfRun value) -> Changed::Value {
        const RunPlan* run = find_run(plan, name);
        return run && run->taken() ? value(*run, *run->taken()) : Changed::Value{};
    };
    for (const RunAspect& aspect : run_aspects)
        add(changed, name, aspect.what, of(before, aspect.value), of(after, aspect.value));
    const auto brings = [&](const Plan& plan) {
        const RunPlan* run = find_run(plan, name);
        return !run || run->figures.has_value();
    };
    if (brings(before) && brings(after)) return;
    const OfRun loop = [](const RunPlan&, const Candidate& taken) {
        return Changed::Value{Measure{taken.resistance().loop}};
    };
    add(changed, name, Aspect::resistance, of(before, loop), of(after, loop));
}

void compare_runs(const Plan& before, const Plan& after, std::vector<Changed>& changed) {
    for (const RunPlan& run : before.runs) compare_run(*run.task.run.name, before, after, changed);
    for (const RunPlan& run : after.runs)
        if (!find_run(before, *run.task.run.name)) compare_run(*run.task.run.name, before, after, changed);
}

void compare_engine_off(const EnergyPlan& before, const EnergyPlan& after, std::vector<Changed>& changed) {
    add(changed, "engine off", Aspect::hours_from_full, Measure{before.autonomy.lasts}, Measure{after.autonomy.lasts});
    // What different hours take is no comparison.
    if (before.night_from == after.night_from && before.night_to == after.night_to)
        add(changed, "engine off",
            before.between_drives() ? Aspect::used_between_drives : Aspect::used_in_a_day_and_a_night,
            Measure{before.a_night}, Measure{after.a_night});
}

Charge mean_of(const TripResult& trip, Charge DayTotals::*member) {
    Charge sum{};
    for (const DayTotals& day : trip.days) sum += day.*member;
    return trip.days.empty() ? sum : sum / static_cast<double>(trip.days.size());
}

void compare_trips(const EnergyPlan& before, const EnergyPlan& after, std::vector<Changed>& changed) {
    const auto both = [&](Aspect what, auto value) {
        add(changed, "trip", what, value(before.trip), value(after.trip));
    };
    both(Aspect::days, [](const TripResult& trip) { return std::to_string(trip.days.size()); });
    both(Aspect::used_a_day, [](const TripResult& trip) { return Measure{mean_of(trip, &DayTotals::used)}; });
    both(Aspect::charged_a_day, [](const TripResult& trip) { return Measure{mean_of(trip, &DayTotals::charged)}; });
    both(Aspect::lowest_soc, [](const TripResult& trip) { return Measure{trip.lowest}; });
    both(Aspect::soc_at_the_end, [](const TripResult& trip) { return Measure{trip.end}; });
    both(Aspect::essential_off, [](const TripResult& trip) {
        return trip.essential_off() > Duration{} ? Changed::Value{Measure{trip.essential_off()}}
                                                 : Changed::Value{std::string("never")};
    });
    const auto an_hour = [](const EnergyPlan& energy) -> Changed::Value {
        return energy.driving ? Changed::Value{Measure{energy.driving->an_hour}} : Changed::Value{};
    };
    add(changed, "driving", Aspect::an_hour_puts_back, an_hour(before), an_hour(after));
}

void compare_fridges(const EnergyPlan& before, const EnergyPlan& after, std::vector<Changed>& changed) {
    for (const FridgeNeed& now : after.fridges)
        for (const FridgeNeed& then : before.fridges)
            if (then.name == now.name)
                add(changed, now.name, Aspect::most_a_day, Measure{then.a_day_hot}, Measure{now.a_day_hot});
}

std::vector<Changed> changes_between(const Plan& before, const Plan& after) {
    std::vector<Changed> changed;
    compare_runs(before, after, changed);
    compare_engine_off(before.energy, after.energy, changed);
    compare_trips(before.energy, after.energy, changed);
    compare_fridges(before.energy, after.energy, changed);
    return changed;
}

/// What is found in the first and not in the second.
Findings missing(const Findings& first, const Findings& second) {
    Findings missing;
    for (const Finding& finding : first)
        if (std::none_of(second.begin(), second.end(), [&](const Finding& other) {
                return other.code == finding.code && other.about == finding.about && other.level == finding.level;
            }))
            missing.push_back(finding);
    return missing;
}

std::optional<Finding> first_stop(const Findings& findings) {
    const auto found = std::find_if(findings.begin(), findings.end(),
                                    [](const Finding& finding) { return finding.level == Level::stop; });
    if (found == findings.end()) return {};
    return *found;
}

}  // namespace

Replan compare(Plan before, Plan after) {
    Replan replan{std::move(before), std::move(after), {}, {}, {}, {}};
    replan.changed = changes_between(replan.before, replan.after);
    replan.gone = missing(replan.before.findings, replan.after.findings);
    replan.come = missing(replan.after.findings, replan.before.findings);
    if (replan.before.holds() != replan.after.holds())
        replan.turned = first_stop(replan.after.holds() ? replan.gone : replan.come);
    return replan;
}

}  // namespace voltwright

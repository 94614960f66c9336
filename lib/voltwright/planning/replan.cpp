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

/// Gathers what differs.
class Comparison {
public:
    Comparison(const Plan& before, const Plan& after) : before_(before), after_(after) {}

    std::vector<Changed> all() && {
        for (const RunPlan& run : before_.runs) runs(*run.task.run.name);
        for (const RunPlan& run : after_.runs)
            if (!find_run(before_, *run.task.run.name)) runs(*run.task.run.name);
        autonomy();
        trip();
        fridges();
        return std::move(changed_);
    }

private:
    void add(std::string about, std::string_view what, Changed::Value before, Changed::Value after) {
        if (shown(before) == shown(after)) return;
        changed_.push_back({std::move(about), what, std::move(before), std::move(after)});
    }

    void runs(const std::string& name) {
        const RunPlan* before = find_run(before_, name);
        const RunPlan* after = find_run(after_, name);
        const auto of = [](const RunPlan* run, auto&& pick) -> Changed::Value {
            if (!run || !run->sized()) return {};
            if (!run->taken()) return {};
            return pick(*run, *run->taken());
        };
        const auto both = [&](std::string_view what, auto&& pick) {
            add(name, what, of(before, pick), of(after, pick));
        };
        both("length", [](const RunPlan& run, const Candidate&) {
            return Changed::Value{Measure{static_cast<const Length&>(run.task.run.length)}};
        });
        both("size", [](const RunPlan& run, const Candidate& taken) {
            return Changed::Value{(run.choice.nothing_fits() ? "no size passes, nearest " : "") +
                                  show_cable(taken.size, run.task.run.insulation) +
                                  (run.choice.given && !taken.fits() ? ", fails" : "")};
        });
        both("fuse", [](const RunPlan&, const Candidate& taken) { return Changed::Value{fuses_of(taken)}; });
        both("drop", [](const RunPlan& run, const Candidate&) {
            return run.figures ? Changed::Value{Measure{run.figures->drop}}
                               : Changed::Value{std::string("cannot be brought")};
        });
        both("worst current",
             [](const RunPlan& run, const Candidate&) { return Changed::Value{Measure{run.choice.design.current}}; });
    }

    void autonomy() {
        add("engine off", "hours from full", Measure{before_.night.autonomy.lasts},
            Measure{after_.night.autonomy.lasts});
        // What different hours take is no comparison.
        if (before_.night.night_from == after_.night.night_from && before_.night.night_to == after_.night.night_to)
            add("engine off", before_.night.between_drives() ? "used between two drives" : "used in a day and a night",
                Measure{before_.night.a_night}, Measure{after_.night.a_night});
    }

    static Charge mean_of(const TripResult& trip, Charge DayTotals::*member) {
        Charge sum{};
        for (const DayTotals& day : trip.days) sum += day.*member;
        return trip.days.empty() ? sum : sum / static_cast<double>(trip.days.size());
    }

    void trip() {
        const TripResult& before = before_.night.trip;
        const TripResult& after = after_.night.trip;
        add("trip", "days", std::to_string(before.days.size()), std::to_string(after.days.size()));
        add("trip", "used a day", Measure{mean_of(before, &DayTotals::used)},
            Measure{mean_of(after, &DayTotals::used)});
        add("trip", "charged a day", Measure{mean_of(before, &DayTotals::charged)},
            Measure{mean_of(after, &DayTotals::charged)});
        add("trip", "lowest state of charge", Measure{before.lowest}, Measure{after.lowest});
        add("trip", "state of charge at the end", Measure{before.end}, Measure{after.end});
        const auto off = [](const TripResult& trip) {
            return trip.essential_off() > Duration{} ? Changed::Value{Measure{trip.essential_off()}}
                                                     : Changed::Value{std::string("never")};
        };
        add("trip", "essential loads off", off(before), off(after));
        const auto an_hour = [](const Night& night) -> Changed::Value {
            return night.driving ? Changed::Value{Measure{night.driving->an_hour}} : Changed::Value{};
        };
        add("driving", "an hour puts back", an_hour(before_.night), an_hour(after_.night));
    }

    void fridges() {
        for (const FridgeNeed& now : after_.night.fridges)
            for (const FridgeNeed& then : before_.night.fridges)
                if (then.name == now.name)
                    add(now.name, "takes a day, at most", Measure{then.a_day_hot}, Measure{now.a_day_hot});
    }

    const Plan& before_;
    const Plan& after_;
    std::vector<Changed> changed_;
};

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
    replan.changed = Comparison(replan.before, replan.after).all();
    replan.gone = missing(replan.before.findings, replan.after.findings);
    replan.come = missing(replan.after.findings, replan.before.findings);
    if (replan.before.holds() != replan.after.holds())
        replan.turned = first_stop(replan.after.holds() ? replan.gone : replan.come);
    return replan;
}

}  // namespace voltwright

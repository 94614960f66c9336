#include "voltwright/planning/other_class.hpp"

#include "voltwright/planning/cables.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// What much of the cable on sale is rated for: ordinary PVC. Common practice, no source.
constexpr Temperature usual_class = celsius(75);

bool same_fuses(const Candidate& a, const Candidate& b) {
    return std::equal(a.fuses.begin(), a.fuses.end(), b.fuses.begin(), b.fuses.end(),
                      [](const FuseFit& one, const FuseFit& other) {
                          return one.family == other.family && one.rating == other.rating;
                      });
}

/// Whether a size fails here what it did not fail there: of a given one, which is judged whatever it fails.
bool fails_more(const Candidate& here, const Candidate& there) {
    return std::any_of(here.fails.begin(), here.fails.end(), [&](Criterion one) {
        return std::find(there.fails.begin(), there.fails.end(), one) == there.fails.end();
    });
}

}  // namespace

std::optional<OtherClass> with_usual_class(const System& system, const std::vector<RunPlan>& runs,
                                           const Findings& findings, const Tables& tables, const Objective* objective) {
    const auto bought = [](const RunPlan& run) {
        return run.task.role != RunRole::panel && !run.task.run.have_cable && run.task.run.insulation > usual_class;
    };
    if (std::none_of(runs.begin(), runs.end(), bought)) return {};
    OtherClass other{.insulation = usual_class};
    bool all_sound = true;
    const std::vector<RunPlan> again = choose_again(system, runs, usual_class, tables, objective);
    for (std::size_t i = 0; i < runs.size(); ++i) {
        if (!bought(runs[i])) continue;
        const Candidate* before = runs[i].taken();
        const Candidate* after = again[i].taken();
        const bool stopped = std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) {
            return finding.stops() &&
                   finding.about == FindingSubject{FindingSubject::Kind::run, {*runs[i].task.run.name}};
        });
        if (!before || stopped) {
            all_sound = false;
            continue;
        }
        if (!after || fails_more(*after, *before)) {
            other.runs.push_back({*runs[i].task.run.name, {}});
            continue;
        }
        const bool other_fuse = !same_fuses(*before, *after);
        if (after->size != before->size || other_fuse)
            other.runs.push_back({*runs[i].task.run.name, after->size, after->fuses, other_fuse});
    }
    if (other.runs.empty() && !all_sound) return {};
    return other;
}

}  // namespace voltwright

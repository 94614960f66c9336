#include "voltwright/planning/findings/run_concerns.hpp"
#include "voltwright/planning/findings/run_remedies.hpp"
#include "voltwright/planning/findings/system_concerns.hpp"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <optional>
#include <utility>
#include <vector>

namespace voltwright {

namespace {

/// A fuse that neither breaks what a short behind it draws nor has one in front that does.
struct WeakFuse {
    const RunPlan& run;
    const RunPlan* before;
    const FuseFit& fuse;

    /// How many times what it is made to interrupt.
    [[nodiscard]] double times() const { return fuse.fault.expected.current / fuse.fault.breaking_capacity.value; }
};

std::vector<WeakFuse> weak_fuses(const SystemContext& of) {
    std::vector<WeakFuse> weak;
    for (std::size_t i = 0; i < of.runs.size(); ++i) {
        const Candidate* taken = of.runs[i].to_lay();
        if (!taken) continue;
        for (const FuseFit& fuse : taken->fuses)
            if (!breaks_enough(fuse)) weak.push_back({of.runs[i], run_before(of.runs, of.system.tree, i), fuse});
    }
    return weak;
}

/// The first family that breaks what is asked in the place of this fuse, with its rating there.
struct StrongerFuse {
    const FuseFamilyRow& family;
    Current rating, breaks;
};

/// A dead short behind a fuse of another family and rating in the place of this one.
Current short_behind(const RunContext& of, const FuseFit& fuse, const FuseFamilyRow& family, Current rating) {
    const FaultCurrent& fault = fuse.fault.expected;
    const Resistance lead = family.form == FuseForm::post ? Resistance{} : fuse.fault.lead;
    const Resistance loop = lead + family.holder + fuse_link_resistance(of.tables, family.family, rating).value;
    return fault_current(fault.open_circuit, fault.internal, loop).current;
}

/// Whether the run with this fuse fails nothing that it does not fail now: another fuse has other ohms.
bool brings_nothing_new(const RunContext& of, const FuseFit& fuse, const FuseFamilyRow& family, Current rating) {
    CableRun changed = of.way();
    const Candidate* taken = of.run.taken();
    if (!taken) return false;
    changed.given = taken->size;
    changed.given_fuses = {GivenFuse{fuse.at, FuseOfRating{rating, std::string(family.family)}}};
    const Choice choice =
        choose_cable(changed, of.run.task.load, of.run.task.supply, of.system.rules, of.tables, Ladder::first);
    const Candidate* with = choice.chosen();
    return with && std::all_of(with->fails.begin(), with->fails.end(), [&](Criterion one) {
               return std::find(taken->fails.begin(), taken->fails.end(), one) != taken->fails.end();
           });
}

std::optional<StrongerFuse> stronger_fuse(const RunContext& of, const FuseFit& fuse) {
    for (const FuseFamilyRow& family : of.tables.fuse_families) {
        const auto breaks = breaking_capacity(of.tables, family.family, fuse.fault.highest_voltage);
        if (!family.usual || !breaks || breaks->value < fuse.fault.expected.current) continue;
        const auto rating = rating_in_place_of(of, fuse, family);
        if (rating && short_behind(of, fuse, family, *rating) <= breaks->value &&
            brings_nothing_new(of, fuse, family, *rating))
            return StrongerFuse{family, *rating, breaks->value};
    }
    return {};
}

bool made_so_large(const RunContext& of, const FuseFamilyRow& family, const FuseFit& fuse) {
    return std::any_of(of.tables.fuses.begin(), of.tables.fuses.end(),
                       [&](const FuseRow& row) { return row.rating >= fuse.rating && row.family == family.family; });
}

/// The profile wants no main fuse: the least one made that is larger than this fuse.
std::vector<Change> main_fuse_change(const RunContext& of, const FuseFit& fuse, const FuseFamilyRow& family) {
    if (!is_battery(fuse.at) || of.run.task.role != RunRole::appliance) return {};
    std::optional<Current> least;
    for (const FuseRow& row : of.tables.fuses)
        if (row.family == family.family && row.rating > fuse.rating)
            least = std::min(least.value_or(row.rating), row.rating);
    if (!least) return {};
    return {{fuse.at.name + ".main_fuse", as_written(*least, family.family)}};
}

/// What breaks more than this fuse: a stronger family in its place, or in front of it.
Remedy cure_of(const RunContext& of, const FuseFit& fuse) {
    if (const auto stronger = stronger_fuse(of, fuse)) {
        const std::string_view family = stronger->family.family;
        return {{{RemedyCode::family_in_its_place,
                  {{"fuse", named_fuse(stronger->rating, family)},
                   {"run", *of.way().name},
                   {"written", as_written(stronger->rating, family)},
                   {"breaks", stronger->breaks}}}},
                fuse_change(of, stronger->rating, family)};
    }
    if (of.run.task.role != RunRole::appliance)
        if (auto both = cable_and_fuse(of)) return *std::move(both);
    for (const FuseFamilyRow& family : of.tables.fuse_families)
        if (const auto breaks = breaking_capacity(of.tables, family.family, fuse.fault.highest_voltage);
            family.usual && breaks && breaks->value >= fuse.fault.expected.current && made_so_large(of, family, fuse))
            return {{{RemedyCode::family_on_the_battery,
                      {{"family", std::string(family.family)}, {"breaks", breaks->value}}}},
                    main_fuse_change(of, fuse, family)};
    return {{{RemedyCode::split_the_bank, {}}}, {}};
}

/// The same step for several fuses is said once.
void add_once(Remedy& remedy, Remedy more) {
    for (RemedyStep& step : more.steps) {
        const bool said = std::any_of(remedy.steps.begin(), remedy.steps.end(), [&](const RemedyStep& one) {
            return one.code == step.code && one.code != RemedyCode::family_in_its_place &&
                   one.code != RemedyCode::take_cable_and_fuse;
        });
        if (!said) remedy.steps.push_back(std::move(step));
    }
    std::move(more.changes.begin(), more.changes.end(), std::back_inserter(remedy.changes));
}

}  // namespace

void find_weak_fuses(const SystemContext& of, Findings& found) {
    const std::vector<WeakFuse> weak = weak_fuses(of);
    if (weak.empty()) return;
    const auto worst = std::max_element(weak.begin(), weak.end(),
                                        [](const WeakFuse& a, const WeakFuse& b) { return a.times() < b.times(); });
    const FaultAtFuse& fault = worst->fuse.fault;
    FindingSubject about{FindingSubject::Kind::run};
    std::vector<NamedFuse> others;
    Remedy remedy;
    for (const WeakFuse& one : weak) {
        if (about.names.empty() || about.names.back() != *one.run.task.run.name)
            about.names.push_back(*one.run.task.run.name);
        if (&one != &*worst) others.push_back(named_fuse(one.fuse));
        add_once(remedy, cure_of({one.run, one.before, of.system, of.tables}, one.fuse));
    }
    Arguments arguments = {{"fuse", named_fuse(worst->fuse)}};
    if (!others.empty()) arguments.push_back({"others", std::move(others)});
    found.push_back({.level = worst->times() > in_ratio(breaking_tolerance) ? Level::stop : Level::warn,
                     .code = FindingCode::breaking_capacity,
                     .about = std::move(about),
                     .found = fault.expected.current,
                     .allowed = fault.breaking_capacity.value,
                     .arguments = std::move(arguments),
                     .remedy = std::move(remedy),
                     .source = fault.breaking_capacity.source});
}

}  // namespace voltwright

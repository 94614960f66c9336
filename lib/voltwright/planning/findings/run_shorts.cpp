#include "voltwright/circuit/fuse_time.hpp"
#include "voltwright/planning/findings/run_concerns.hpp"
#include "voltwright/planning/findings/run_remedies.hpp"
#include "voltwright/planning/findings/sources.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

/// The fuse that a protection speaks of; nullptr where it was not taken.
const FuseFit* fuse_of(const Candidate& taken, const Protection& protection) {
    const auto fuse = std::find_if(taken.fuses.begin(), taken.fuses.end(),
                                   [&](const FuseFit& fit) { return fit.at == protection.at; });
    return fuse == taken.fuses.end() ? nullptr : &*fuse;
}

/// Another size, or a smaller fuse in place of a given one: a fuse that was chosen is the smallest there may be.
Remedy cure_of_short(const RunContext& of, bool smaller_fuse) {
    const bool other_size = of.run.choice.least_that_fits() || thin_return(of);
    Remedy cure = other_size ? size_that_fits(of) : Remedy{{{RemedyCode::shorten_run, {}}}, {}};
    if (smaller_fuse) cure.steps.push_back({RemedyCode::smaller_fuse, {}});
    if (const InternalResistance* battery = assumed_battery(of))
        cure.steps.push_back(
            {RemedyCode::give_internal_resistance, {{"resistance", Resistance(Protection::aged * battery->high)}}});
    return cure;
}

/// Of one protection, what is common to all that is said of it.
Finding about_short(const RunContext& of, const Candidate& taken, const Protection& one) {
    const FuseFit* fuse = fuse_of(taken, one);
    const Argument::Value name = fuse ? Argument::Value(named_fuse(*fuse)) : Argument::Value(one.at.name);
    return {.level = Level::stop,
            .code = FindingCode::withstand,
            .about = subject_of(of),
            .arguments = {{"fuse", name}},
            .remedy = cure_of_short(of, fuse && fuse->given),
            .source = sources::withstand};
}

Finding burns_on(const RunContext& of, const Candidate& taken, const Protection& one) {
    Finding finding = about_short(of, taken, one);
    finding.code = one.clears ? FindingCode::short_burns_on : FindingCode::short_never_cleared;
    finding.found = one.clears ? Measure{*one.clears} : Measure{one.lowest.current};
    finding.allowed = Protection::longest_clearing;
    finding.source = sources::disconnection;
    return finding;
}

Finding burns_the_cable(const RunContext& of, const Candidate& taken, const Protection& one) {
    const Withstand& worst = one.at_worst && !one.at_worst->holds() ? *one.at_worst : *one.at_far;
    Finding finding = about_short(of, taken, one);
    finding.found = worst.let_through;
    finding.allowed = worst.allowed;
    return finding;
}

/// The least current that a bolted fuse of this rating, of the slowest family with known times that is tried before its
/// own, surely clears in time.
std::optional<Current> slowest_known(const RunContext& of, const FuseFit& fuse) {
    std::optional<Current> slowest;
    for (const FuseFamilyRow& family : of.tables.fuse_families) {
        if (family.family == fuse.family) break;
        if (family.form != FuseForm::bolted) continue;
        const auto least = surely_clears(of.tables, family.family, fuse.rating, Protection::longest_clearing);
        if (least) slowest = std::max(slowest.value_or(Current{}), *least);
    }
    return slowest;
}

}  // namespace

void find_shorts(const RunContext& of, const Candidate& taken, Criterion criterion, Findings& found) {
    if (criterion == Criterion::withstand && taken.start && !taken.start->holds())
        found.push_back({.level = Level::stop,
                         .code = FindingCode::start_too_hot,
                         .about = subject_of(of),
                         .found = taken.start->let_through,
                         .allowed = taken.start->allowed,
                         .arguments = {{"cable", named_cable(of, taken.size)}},
                         .remedy = size_that_fits(of),
                         .source = sources::withstand});
    for (const Protection& one : taken.protection) {
        if (criterion == Criterion::clearing && !one.clears_in_time()) found.push_back(burns_on(of, taken, one));
        if (criterion == Criterion::withstand && !one.withstands()) found.push_back(burns_the_cable(of, taken, one));
    }
}

void find_unknown_times(const RunContext& of, const Candidate& taken, Findings& found) {
    for (const Protection& one : taken.protection) {
        const FuseFit* fuse = fuse_of(taken, one);
        if (one.known || !fuse) continue;
        const auto slowest = slowest_known(of, *fuse);
        if (!slowest || one.lowest.current >= *slowest) continue;
        found.push_back({.level = Level::warn,
                         .code = FindingCode::short_time_unknown,
                         .about = subject_of(of),
                         .found = one.lowest.current,
                         .allowed = *slowest,
                         .arguments = {{"fuse", named_fuse(*fuse)}},
                         .source = sources::disconnection});
    }
}

void find_assumed_battery(const RunContext& of, const Candidate& taken, Findings& found) {
    const InternalResistance* battery = assumed_battery(of);
    if (!battery || of.run.choice.given || of.run.choice.decided_by != Criterion::clearing) return;
    found.push_back({.level = Level::note,
                     .code = FindingCode::battery_assumed,
                     .about = subject_of(of),
                     .found = Resistance(Protection::aged * battery->high),
                     .arguments = {{"cable", named_cable(of, taken.size)}},
                     .source = battery->source});
}

}  // namespace voltwright

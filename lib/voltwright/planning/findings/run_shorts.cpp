#include "voltwright/circuit/fuse_time.hpp"
#include "voltwright/planning/findings/run_concerns.hpp"
#include "voltwright/planning/findings/run_remedies.hpp"
#include "voltwright/planning/findings/short_remedies.hpp"
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
    const LastingShort& lasts = *one.lasting;
    Finding finding = about_short(of, taken, one);
    finding.code = lasts.time ? FindingCode::short_burns_on : FindingCode::short_never_cleared;
    finding.found = lasts.reaches;
    finding.allowed = lasts.limit;
    finding.arguments.push_back({"short", lasts.current});
    if (lasts.time) finding.arguments.push_back({"lasts", *lasts.time});
    finding.source = lasts.time ? sources::overload : ampacity_source(of);
    return finding;
}

Finding burns_the_cable(const RunContext& of, const Candidate& taken, const Protection& one) {
    const Withstand& worst = one.at_worst && !one.at_worst->holds() ? *one.at_worst : *one.at_far;
    Finding finding = about_short(of, taken, one);
    finding.found = worst.let_through;
    finding.allowed = worst.allowed;
    return finding;
}

/// The bolted family of which it is known that a fuse of this rating would leave the cable too hot; nullptr where each
/// would clear in time.
const FuseFamilyRow* too_slow_as(const RunContext& of, const Candidate& taken, const FuseFit& fuse,
                                 const FuseEnd& end) {
    const auto conductor =
        shorted_conductor(of.way(), judged_conductor(of, taken).area, taken.ampacity, of.run.choice.design, of.tables);
    if (!conductor) return nullptr;
    for (const FuseFamilyRow& family : of.tables.fuse_families) {
        if (family.family == fuse.family) break;
        if (family.form != FuseForm::bolted) continue;
        FuseFit other = fuse;
        other.family = family.family;
        const Protection as = protect(other, end, of.way().upstream.hot + taken.hot_loop, *conductor, of.tables);
        if (as.known && !as.holds()) return &family;
    }
    return nullptr;
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
        if (criterion == Criterion::clearing && !one.lasts_safely()) found.push_back(burns_on(of, taken, one));
        if (criterion == Criterion::withstand && !one.withstands()) found.push_back(burns_the_cable(of, taken, one));
    }
}

void find_unknown_times(const RunContext& of, const Candidate& taken, Findings& found) {
    for (const Protection& one : taken.protection) {
        const FuseFit* fuse = fuse_of(taken, one);
        const auto& ends = of.way().fused_at;
        const auto end = std::find_if(ends.begin(), ends.end(), [&](const FuseEnd& each) { return each.at == one.at; });
        if (one.known || !fuse || end == ends.end()) continue;
        const FuseFamilyRow* slow = too_slow_as(of, taken, *fuse, *end);
        if (!slow) continue;
        const auto in_time = surely_clears(of.tables, slow->family, fuse->rating, Protection::adiabatic);
        found.push_back({.level = Level::warn,
                         .code = FindingCode::short_time_unknown,
                         .about = subject_of(of),
                         .found = one.lowest.current,
                         .allowed = in_time.value_or(one.lowest.current),
                         .arguments = {{"fuse", named_fuse(*fuse)}},
                         .source = sources::withstand});
    }
}

void find_assumed_battery(const RunContext& of, const Candidate& taken, Findings& found) {
    const InternalResistance* battery = assumed_battery(of);
    if (!battery || of.run.choice.given || of.run.choice.decided_by != Criterion::clearing) return;
    found.push_back({.level = Level::note,
                     .code = FindingCode::battery_assumed,
                     .about = subject_of(of),
                     .found = aged_resistance(*battery),
                     .arguments = {{"cable", named_cable(of, taken.size)}},
                     .source = battery->source});
}

}  // namespace voltwright

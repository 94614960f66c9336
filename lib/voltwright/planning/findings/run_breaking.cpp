#include "voltwright/planning/findings/run_concerns.hpp"
#include "voltwright/planning/findings/run_remedies.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

/// A fuse of the trunk before this run that breaks what a short here asks for; nullptr where there is none.
const FuseFit* front_that_breaks(const RunContext& of, Current asked) {
    if (!of.before || !of.before->taken()) return nullptr;
    for (const FuseFit& front : of.before->taken()->fuses)
        if (front.fault.breaking_capacity.value >= asked) return &front;
    return nullptr;
}

struct StrongestFamily {
    const FuseFamilyRow* family = nullptr;
    Current breaks;
};

/// The family that breaks most, where it breaks more than this fuse.
StrongestFamily strongest_family(const RunContext& of, const FuseFit& fuse) {
    StrongestFamily best{nullptr, fuse.fault.breaking_capacity.value};
    for (const FuseFamilyRow& family : of.tables.fuse_families) {
        const BreakingCapacityRow* row =
            find_breaking_capacity(of.tables, family.family, fuse.fault.expected.open_circuit);
        if (row && row->breaking_capacity > best.breaks) best = {&family, row->breaking_capacity};
    }
    return best;
}

bool made_so_large(const RunContext& of, const FuseFamilyRow& family, Current least) {
    return std::any_of(of.tables.fuses.begin(), of.tables.fuses.end(),
                       [&](const FuseRow& row) { return row.family == family.family && row.rating >= least; });
}

/// What is left where no family of the tables breaks enough. More cable in front of the fuse would lessen the current,
/// and burn unprotected. UL 248-15: 20 kA at 125 V d.c. is usual; makers' sheets second hand, and from memory.
Remedy class_t(const FuseFit& fuse) {
    constexpr Current breaks = amperes(20000);
    if (fuse.fault.highest.current > breaks) return {{{RemedyCode::split_the_bank, {}}}, {}};
    return {{{RemedyCode::class_t,
              {{"at_least", fuse.window.at_least}, {"at_most", fuse.window.at_most}, {"breaks", breaks}}}},
            {}};
}

/// What breaks more than this fuse: a stronger family in its place, or in front of it.
Remedy stronger_family(const RunContext& of, const FuseFit& fuse) {
    if (const FuseFit* front = front_that_breaks(of, fuse.fault.expected.current))
        return {
            {{RemedyCode::cover_it, {{"front", named_fuse(*front)}, {"breaks", front->fault.breaking_capacity.value}}}},
            {}};
    const StrongestFamily best = strongest_family(of, fuse);
    if (!best.family || !made_so_large(of, *best.family, fuse.window.at_least)) return class_t(fuse);
    const Argument standard{"standard", std::string(best.family->standard)}, breaks{"breaks", best.breaks};
    if (const auto rating = rating_in_place_of(of, fuse, *best.family))
        return {{{RemedyCode::family_in_its_place,
                  {{"fuse", named_fuse(*rating, best.family->family)},
                   {"written", as_written(*rating, best.family->family)},
                   standard,
                   breaks}}},
                fuse_change(of, *rating, best.family->family)};
    return {{{RemedyCode::family_on_the_battery, {{"family", std::string(best.family->family)}, standard, breaks}}},
            {}};
}

}  // namespace

void find_breaking_capacity(const RunContext& of, const FuseFit& fuse, Findings& found) {
    const Current capacity = fuse.fault.breaking_capacity.value;
    const Current expected = fuse.fault.expected.current, highest = fuse.fault.highest.current;
    if (highest <= capacity) return;
    const bool stops = expected > breaking_tolerance * capacity;
    const bool warns = highest > breaking_tolerance * capacity;
    found.push_back({.level = stops   ? Level::stop
                              : warns ? Level::warn
                                      : Level::note,
                     .code = FindingCode::breaking_capacity,
                     .about = subject_of(of),
                     .found = stops ? expected : highest,
                     .allowed = capacity,
                     .arguments = {{"fuse", named_fuse(fuse)}},
                     .remedy = stronger_family(of, fuse),
                     .source = fuse.fault.breaking_capacity.source});
}

}  // namespace voltwright

#include "voltwright/planning/findings/run_concerns.hpp"
#include "voltwright/planning/findings/run_remedies.hpp"
#include "voltwright/planning/findings/sources.hpp"

#include <cstddef>
#include <utility>

namespace voltwright {

namespace {

/// What a fuse at that end must be, for the size that is taken; nullptr where nothing was judged.
const FuseWindow* window_at(const RunContext& of, const FuseEnd& end) {
    const Candidate* taken = of.run.taken();
    const auto index = static_cast<std::size_t>(&end - of.way().fused_at.data());
    return taken && index < taken->windows.size() ? &taken->windows[index] : nullptr;
}

Remedy fuse_for_bare_end(const RunContext& of, const FuseEnd& end) {
    if (const Candidate* taken = of.run.to_lay())
        if (const std::vector<NamedFuse> fits = fuses_that_fit(of, taken->size); !fits.empty())
            return {{{RemedyCode::fit_fuse_there, {{"fuses", fits}}}}, fuse_change(of, fits)};
    if (!window_at(of, end)) return {{{RemedyCode::fit_one_there, {}}}, {}};
    return Remedy{{{RemedyCode::no_fuse_for_this_cable, {}}}, {}} + cable_for_a_fuse(of);
}

Finding fuse_missing(const RunContext& of, const FuseEnd& end) {
    return {.level = Level::stop,
            .code = FindingCode::fuse_missing,
            .about = subject_of(of),
            .found = fault_current(end.open_circuit, end.internal.low, of.way().upstream.cold).current,
            .arguments = {{"end", end.at}},
            .remedy = fuse_for_bare_end(of, end),
            .source = sources::fuse_at_the_source};
}

/// What becomes of a fuse that sits where no source feeds the run.
Remedy for_fuse_elsewhere(const RunContext& of, const FuseEnd& end, const FuseOfRating& fuse) {
    const Argument there{"end", end.at};
    if (!left_bare(of.way(), end)) return {{{RemedyCode::fuse_stays, {there}}}, {}};
    CableRun moved = of.way();
    moved.given_fuses = {GivenFuse{end.at, fuse}};
    if (const Candidate* taken = of.run.to_lay()) moved.given = taken->size;
    if (!would_do(of, moved)) return {{{RemedyCode::fuse_stays_and_another, {there}}}, {}};
    const std::string written = "{ " + end.at.name + " = \"" + as_written(fuse.rating, fuse.family) + "\" }";
    return {{{RemedyCode::move_fuse, {there, {"value", written}}}}, change_of(of, "fuse", written)};
}

}  // namespace

const FuseFit* protecting_fuse_before(const RunContext& of, const FuseEnd& end) {
    const Candidate* taken = of.run.taken();
    const FuseWindow* window = window_at(of, end);
    if (!of.before || !of.before->taken() || !window) return nullptr;
    const CableRun& run = of.way();
    auto conductor =
        shorted_conductor(run, judged_conductor(of, *taken).area, taken->ampacity, of.run.choice.design, of.tables);
    if (!conductor) return nullptr;
    conductor->start = run.insulation;
    for (const FuseFit& fuse : of.before->taken()->fuses) {
        if (fuse.rating > window->at_most) continue;
        const Protection protection = protect(fuse, end, run.upstream.hot + taken->hot_loop, *conductor, of.tables);
        if (protection.known && protection.holds()) return &fuse;
    }
    return nullptr;
}

void find_bare_ends(const RunContext& of, Findings& found) {
    for (const FuseEnd& end : of.way().fused_at)
        if (left_bare(of.way(), end) && !protecting_fuse_before(of, end)) found.push_back(fuse_missing(of, end));
}

void find_fuses_elsewhere(const RunContext& of, Findings& found) {
    const auto& ends = of.way().fused_at;
    if (ends.empty()) return;
    for (const auto& [at, fuse] : fuses_elsewhere(of.way()))
        found.push_back({.level = left_bare(of.way(), ends.front()) ? Level::warn : Level::note,
                         .code = FindingCode::fuse_elsewhere,
                         .about = subject_of(of),
                         .arguments = {{"fuse", NamedFuse{fuse.rating, fuse.family, at}}},
                         .remedy = for_fuse_elsewhere(of, ends.front(), fuse),
                         .source = sources::fuse_at_the_source});
}

}  // namespace voltwright

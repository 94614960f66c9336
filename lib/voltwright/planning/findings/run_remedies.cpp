#include "voltwright/planning/findings/run_remedies.hpp"

#include "voltwright/units/show.hpp"

#include <algorithm>

namespace voltwright {

namespace {

bool does_not_stop(const FuseFit& fuse) {
    return fuse.in_window && fuse.fault.expected.current <= breaking_tolerance * fuse.fault.interrupts();
}

Remedy take_cable(const RunContext& of, Gauge size) {
    return {{{RemedyCode::take_cable, {{"cable", named_cable(of, size)}}}}, size_change(of, size)};
}

}  // namespace

namespace {

std::optional<Candidate> does_alone(const RunContext& of, const CableRun& changed, const Rules& rules) {
    const Choice choice = choose_cable(changed, of.run.task.load, of.run.task.supply, rules, of.tables, Ladder::needed);
    const Candidate* taken = choice.chosen();
    if (!taken || !taken->fits() || taken->fuses.size() != changed.fused_at.size() ||
        !std::all_of(taken->fuses.begin(), taken->fuses.end(), does_not_stop))
        return {};
    return *taken;
}

/// Whether the way that the run shares with others stays within its limit.
bool keeps_its_way(const RunContext& of, const Candidate& candidate) {
    const auto& way = of.run.way;
    const Candidate* taken = of.run.taken();
    if (!way || of.run.task.role == RunRole::trunk || !taken || !taken->drop || !candidate.drop) return true;
    return way->lost - taken->drop->drop + candidate.drop->drop <= way->allowed + volts(1e-9);
}

}  // namespace

std::optional<Candidate> would_do(const RunContext& of, const CableRun& changed, const Rules& rules) {
    const auto least = does_alone(of, changed, rules);
    if (!least || keeps_its_way(of, *least)) return least;
    if (changed.given) return {};
    CableRun thicker = changed;
    for (const Candidate& size : of.run.choice.ladder) {
        if (size.area <= least->area) continue;
        thicker.given = size.size;
        const auto candidate = does_alone(of, thicker, rules);
        if (candidate && keeps_its_way(of, *candidate)) return candidate;
    }
    return {};
}

std::optional<Candidate> would_do(const RunContext& of, const CableRun& changed) {
    return would_do(of, changed, of.system.rules);
}

std::vector<Change> change_of(const RunContext& of, std::string_view key, std::string value) {
    if (of.run.task.main_fuse || of.run.task.assumed) return {};
    return {{"run." + *of.way().name + "." + std::string(key), std::move(value)}};
}

std::string as_written(Current rating, std::string_view family) { return show(rating) + " " + std::string(family); }

std::vector<Change> size_change(const RunContext& of, Gauge size) { return change_of(of, "size", show(size)); }

std::vector<Change> fuse_change(const RunContext& of, Current rating, std::string_view family) {
    if (!of.run.task.main_fuse) return change_of(of, "fuse", as_written(rating, family));
    return {{of.run.task.from.kind == PlaceKind::starter_battery ? "starter.main_fuse" : "battery.main_fuse",
             as_written(rating, family)}};
}

std::vector<Change> fuse_change(const RunContext& of, const std::vector<NamedFuse>& fuses) {
    // One fuse a run is what the profile's plain form says; of several, each would want the name of its end.
    return fuses.size() == 1 ? fuse_change(of, fuses.front().rating, fuses.front().family) : std::vector<Change>{};
}

std::vector<NamedFuse> named_fuses_of(const Candidate& candidate) {
    std::vector<NamedFuse> fuses;
    for (const FuseFit& fuse : candidate.fuses) fuses.push_back(named_fuse(fuse.rating, fuse.family));
    return fuses;
}

std::vector<NamedFuse> fuses_that_fit(const RunContext& of, Gauge size, const Rules& rules) {
    CableRun changed = of.way();
    changed.given = size;
    changed.given_fuses.clear();
    const Choice choice = choose_cable(changed, of.run.task.load, of.run.task.supply, rules, of.tables, Ladder::first);
    const Candidate* candidate = choice.chosen();
    const Candidate* taken = of.run.taken();
    const auto new_or_of_a_fuse = [&](Criterion one) {
        return one == Criterion::fuse || one == Criterion::clearing || one == Criterion::withstand || !taken ||
               std::find(taken->fails.begin(), taken->fails.end(), one) == taken->fails.end();
    };
    if (!candidate || candidate->fuses.size() != changed.fused_at.size() ||
        std::any_of(candidate->fails.begin(), candidate->fails.end(), new_or_of_a_fuse) ||
        !std::all_of(candidate->fuses.begin(), candidate->fuses.end(), does_not_stop))
        return {};
    return named_fuses_of(*candidate);
}

std::vector<NamedFuse> fuses_that_fit(const RunContext& of, Gauge size) {
    return fuses_that_fit(of, size, of.system.rules);
}

std::optional<Remedy> cable_and_fuse(const RunContext& of) {
    CableRun changed = of.way();
    changed.given.reset();
    changed.given_fuses.clear();
    const auto candidate = would_do(of, changed);
    if (!candidate) return {};
    const std::vector<NamedFuse> fuses = named_fuses_of(*candidate);
    const RemedyStep step{RemedyCode::take_cable_and_fuse,
                          {{"cable", named_cable(of, candidate->size)}, {"fuses", fuses}}};
    return Remedy{{step}, size_change(of, candidate->size)} + Remedy{{}, fuse_change(of, fuses)};
}

std::optional<Remedy> cable_back(const RunContext& of) {
    CableRun changed = of.way();
    if (!changed.body) return {};
    changed.body.reset();
    changed.given.reset();
    changed.loaded_in_bundle = std::max(changed.loaded_in_bundle, 2);
    const auto candidate = would_do(of, changed);
    if (!candidate) return {};
    const RemedyStep step{RemedyCode::cable_back, {{"cable", named_cable(of, candidate->size)}}};
    Remedy remedy{{step}, change_of(of, "return", "cable")};
    return of.way().given ? remedy + Remedy{{}, size_change(of, candidate->size)} : remedy;
}

Remedy cable_for_a_fuse(const RunContext& of) {
    if (thin_return(of)) return size_that_fits(of);
    if (auto both = cable_and_fuse(of)) return *std::move(both);
    if (auto out = way_out(of)) return *std::move(out);
    return {{{RemedyCode::no_size_does, {}}}, {}};
}

Remedy size_that_fits(const RunContext& of) {
    const Candidate* taken = of.run.taken();
    if (thin_return(of))
        return {{{RemedyCode::thicker_return, {{"cable", named_cable(of, taken->size)}}}},
                change_of(of, "return_size", show(taken->size))};
    const Candidate* least = of.run.choice.least_that_fits();
    const bool helps = least && !(taken && taken->size == least->size);
    const bool fuse_stays_wrong = least && !std::all_of(least->fuses.begin(), least->fuses.end(), does_not_stop);
    if (helps && !fuse_stays_wrong) return take_cable(of, least->size);
    if (auto both = cable_and_fuse(of)) return *std::move(both);
    if (helps) return take_cable(of, least->size);
    if (auto out = way_out(of)) return *std::move(out);
    return {{{RemedyCode::no_size_does, {}}}, {}};
}

}  // namespace voltwright

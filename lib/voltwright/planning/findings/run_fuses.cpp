#include "voltwright/circuit/fuse_time.hpp"
#include "voltwright/planning/findings/run_concerns.hpp"
#include "voltwright/planning/findings/run_remedies.hpp"
#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/sizing/short_time.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

Remedy step(RemedyCode code, Arguments arguments = {}) { return {{{code, std::move(arguments)}}, {}}; }

/// Whether any rating both carries the current and protects what is behind it.
bool empty(const FuseWindow& window) { return window.at_least > window.at_most; }

/// The fuses that the cable to be laid would get.
std::vector<NamedFuse> fitting_fuses(const RunContext& of) {
    const Candidate* taken = of.run.to_lay();
    return taken ? fuses_that_fit(of, taken->size) : std::vector<NamedFuse>{};
}

Remedy fit(const RunContext& of, const std::vector<NamedFuse>& fuses) {
    return {{{RemedyCode::fit_fuse, {{"fuses", fuses}}}}, fuse_change(of, fuses)};
}

Remedy for_smaller_fuse(const RunContext& of, const FuseWindow& window) {
    const std::vector<NamedFuse> fits = fitting_fuses(of);
    if (fits.empty() && empty(window)) return step(RemedyCode::no_fuse_does) + cable_for_a_fuse(of);
    if (window.at_most == window.ampacity && thin_return(of)) return size_that_fits(of);
    if (!of.run.to_lay() || fits.empty())
        if (auto both = cable_and_fuse(of)) return *std::move(both);
    return fits.empty() ? step(RemedyCode::fit_fuse_of_at_most, {{"at_most", window.at_most}}) : fit(of, fits);
}

Remedy for_larger_fuse(const RunContext& of, const FuseWindow& window) {
    const std::vector<NamedFuse> fits = fitting_fuses(of);
    if (fits.empty() && empty(window)) return step(RemedyCode::no_fuse_does) + cable_for_a_fuse(of);
    if (fits.empty())
        if (auto both = cable_and_fuse(of)) return *std::move(both);
    return fits.empty() ? step(RemedyCode::fit_fuse_of_at_least, {{"at_least", window.at_least}}) : fit(of, fits);
}

/// The shelf of the profile's rules with these on it too.
std::vector<Change> fuller_shelf(const RunContext& of, const std::vector<NamedFuse>& fuses) {
    std::string shelf;
    for (const FuseOfRating& fuse : *of.system.rules.shelf)
        shelf += "\"" + as_written(fuse.rating, fuse.family) + "\", ";
    for (const NamedFuse& fuse : fuses) shelf += "\"" + as_written(fuse.rating, fuse.family) + "\", ";
    shelf.resize(shelf.size() - 2);
    return {{"rules.fuses", "[" + shelf + "]"}};
}

/// A fuse that the shop lacks; empty where the shelf is not what limits the run.
std::optional<Remedy> for_the_shelf(const RunContext& of) {
    if (!of.system.rules.shelf) return {};
    Rules any_fuse = of.system.rules;
    any_fuse.shelf.reset();
    if (const auto candidate = would_do(of, of.way(), any_fuse)) {
        const std::vector<NamedFuse> fuses = named_fuses_of(*candidate);
        return Remedy{{{RemedyCode::shelf_lacks_fuse, {{"fuses", fuses}, {"cable", named_cable(of, candidate->size)}}}},
                      fuller_shelf(of, fuses)};
    }
    const Candidate* taken = of.run.taken();
    if (!taken) return {};
    const std::vector<NamedFuse> fuses = fuses_that_fit(of, taken->size, any_fuse);
    if (fuses.empty()) return {};
    return Remedy{{{RemedyCode::shelf_lacks_fuse_alone, {{"fuses", fuses}}}}, fuller_shelf(of, fuses)};
}

/// What makes room for a fuse: never a larger one than cable, parts and manual allow.
Remedy room_for_fuse(const RunContext& of, const FuseWindow& window) {
    if (auto shelf = for_the_shelf(of)) return *std::move(shelf);
    if (window.parts && *window.parts == window.at_most)
        return step(RemedyCode::part_limits_fuse, {{"at_least", window.at_least}});
    if (window.appliance && *window.appliance == window.at_most) return step(RemedyCode::manual_limits_fuse);
    if (auto out = way_out(of)) return *std::move(out);
    return step(RemedyCode::cable_limits_fuse);
}

bool any_rating_within(const RunContext& of, const FuseWindow& window) {
    return std::any_of(of.tables.fuses.begin(), of.tables.fuses.end(), [&](const FuseRow& row) {
        return row.rating >= window.at_least && row.rating <= window.at_most;
    });
}

/// A fuse within what cable, parts and appliance allow that lets a start pass, its own family first.
Remedy fuse_that_starts(const RunContext& of, const FuseFit& fuse) {
    const auto with = [&](Current rating, std::string_view family) {
        return Remedy{{{RemedyCode::fuse_that_starts, {{"fuse", named_fuse(rating, family)}}}},
                      fuse_change(of, rating, family)};
    };
    if (const FuseFamilyRow* own = find_fuse_family(of.tables, fuse.family))
        if (const auto rating = rating_in_place_of(of, fuse, *own)) return with(*rating, own->family);
    for (const FuseFamilyRow& family : of.tables.fuse_families)
        if (const auto rating = rating_in_place_of(of, fuse, family); rating && family.usual)
            return with(*rating, family.family);
    return step(fuse.window.at_most == fuse.window.ampacity ? RemedyCode::thicker_cable_then_fuse
                                                            : RemedyCode::ask_for_its_fuse);
}

Finding too_large(const RunContext& of, const FuseFit& fuse) {
    const bool by_cable = fuse.window.at_most == fuse.window.ampacity;
    return {.level = Level::stop,
            .code = by_cable ? FindingCode::fuse_too_large : FindingCode::fuse_above_part,
            .about = subject_of(of),
            .found = fuse.rating,
            .allowed = fuse.window.at_most,
            .arguments = {{"fuse", named_fuse(fuse)}},
            .remedy = for_smaller_fuse(of, fuse.window),
            .source = sources::fuse_protects};
}

Finding too_small(const RunContext& of, const FuseFit& fuse) {
    const bool blows = fuse.rating < fuse.window.design;
    return {.level = blows ? Level::stop : Level::warn,
            .code = FindingCode::fuse_too_small,
            .about = subject_of(of),
            .found = fuse.rating,
            .allowed = fuse.window.at_least,
            .arguments = {{"fuse", named_fuse(fuse)}},
            .remedy = for_larger_fuse(of, fuse.window),
            .source = sources::fuse_holds,
            .concern = blows ? concern_of_power(of) : Concern::wiring};
}

/// Smaller than the rule for the long run, by the manual's word.
Finding by_manual(const RunContext& of, const FuseFit& fuse) {
    return {.level = Level::warn,
            .code = FindingCode::fuse_by_manual,
            .about = subject_of(of),
            .found = fuse.window.design,
            .allowed = fuse.rating * fuse.window.use * fuse.window.rerating,
            .arguments = {{"fuse", named_fuse(fuse)}},
            .source = sources::fuse_of_the_manual};
}

}  // namespace

std::optional<Current> rating_in_place_of(const RunContext& of, const FuseFit& fuse, const FuseFamilyRow& family) {
    if (family.form == FuseForm::post && !is_battery(fuse.at)) return {};
    const auto passes = to_let_pass(of.way(), of.run.choice.design, fuse.window.rerating);
    const auto allowed = [&](Current rating) {
        return (rating >= fuse.window.at_least && rating <= fuse.window.at_most) ||
               (fuse.in_window && rating == fuse.rating);
    };
    for (const FuseRow& row : of.tables.fuses)
        if (allowed(row.rating) && row.family == family.family &&
            std::all_of(passes.begin(), passes.end(), [&](const ShortCurrent& one) {
                return rides_through(of.tables, row.family, row.rating, one.current, one.time);
            }))
            return row.rating;
    return {};
}

void find_unfit_fuse(const RunContext& of, const FuseFit& fuse, Findings& found) {
    if (fuse.by_manual()) return found.push_back(by_manual(of, fuse));
    if (!fuse.given || fuse.in_window) return;
    found.push_back(fuse.rating > fuse.window.at_most ? too_large(of, fuse) : too_small(of, fuse));
}

void find_in_line_holder(const RunContext& of, const FuseFit& fuse, Findings& found) {
    const Current most = peak_current(of.run.choice.design);
    if (!fuse.in_line || most <= fuse.in_line->rating) return;
    found.push_back({.level = Level::warn,
                     .code = FindingCode::in_line_holder,
                     .about = subject_of(of),
                     .found = most,
                     .allowed = fuse.in_line->rating,
                     .arguments = {{"fuse", named_fuse(fuse)}},
                     .source = sources::practice});
}

void find_blown_on_start(const RunContext& of, const FuseFit& fuse, Findings& found) {
    const auto& starting = of.way().starting;
    const auto start = std::find_if(starting.begin(), starting.end(), [&](const ShortCurrent& one) {
        return !rides_through(of.tables, fuse.family, fuse.rating, one.current, one.time);
    });
    if (start == starting.end()) return;
    found.push_back({.level = Level::warn,
                     .code = FindingCode::blows_on_start,
                     .about = subject_of(of),
                     .found = start->current,
                     .allowed = fuse.rating,
                     .arguments = {{"fuse", named_fuse(fuse)}},
                     .remedy = fuse_that_starts(of, fuse),
                     .source = sources::fuse_times});
}

void find_blown_in_use(const RunContext& of, const FuseFit& fuse, Findings& found) {
    const auto& flows = of.run.choice.design.short_time;
    if (!flows) return;
    const auto time = fuse_time(of.tables, fuse.family, fuse.rating, flows->current / fuse.window.rerating);
    if (!time || time->at_least >= flows->on) return;
    found.push_back({.level = time->at_most && *time->at_most < flows->on ? Level::stop : Level::warn,
                     .code = FindingCode::blows_in_use,
                     .about = subject_of(of),
                     .found = flows->current,
                     .allowed = fuse.rating,
                     .arguments = {{"fuse", named_fuse(fuse)}, {"lasts", flows->on}},
                     .remedy = fuse_that_starts(of, fuse),
                     .source = sources::fuse_times,
                     .concern = concern_of_power(of)});
}

void find_no_fuse(const RunContext& of, const FuseWindow& window, Findings& found) {
    const auto passes = to_let_pass(of.way(), of.run.choice.design, window.rerating);
    if (!passes.empty() && any_rating_within(of, window)) {
        const auto hardest =
            std::max_element(passes.begin(), passes.end(),
                             [](const ShortCurrent& a, const ShortCurrent& b) { return a.current < b.current; });
        return found.push_back({.level = Level::stop,
                                .code = FindingCode::no_fuse_starts,
                                .about = subject_of(of),
                                .found = hardest->current,
                                .allowed = window.at_most,
                                .arguments = {{"lasts", hardest->time}},
                                .source = sources::fuse_times});
    }
    found.push_back({.level = Level::stop,
                     .code = FindingCode::no_fuse_fits,
                     .about = subject_of(of),
                     .found = window.at_least,
                     .allowed = window.at_most,
                     .remedy = room_for_fuse(of, window),
                     .source = sources::fuse_window});
}

}  // namespace voltwright

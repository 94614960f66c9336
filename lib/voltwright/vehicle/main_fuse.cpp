#include "voltwright/vehicle/main_fuse.hpp"

#include "voltwright/profile/own_runs.hpp"
#include "voltwright/profile/profile.hpp"
#include "voltwright/sizing/ampacity.hpp"
#include "voltwright/sizing/main_fuse.hpp"
#include "voltwright/sizing/warm_run.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>
#include <limits>
#include <string>
#include <utility>

namespace voltwright {

namespace {

/// A main fuse is larger than the largest behind it: an ampere more is the next rating made.
constexpr Current one_larger = amperes(1);
/// So far from the battery that any fuse breaks: which one a branch gets by its current alone.
constexpr Resistance far_away = ohms(1);
/// Thick enough for the leads of any holder, and the thinnest that is laid.
constexpr Area thick = square_millimetres(100), thin = square_millimetres(1);

/// What a battery's post is asked for.
struct Post {
    Place battery;
    const Given<PostFuse>& given;
    bool have;
    OwnRun names;

    [[nodiscard]] bool wants_none() const { return given && !given->fuse; }
};

/// The fuse that somebody gave for the beginning of a run; nullptr where the plan chooses one, and where there is to be none
/// as well: `bare`.
struct GivenAtStart {
    const FuseChoice* fuse = nullptr;
    bool bare = false;
};

GivenAtStart given_at_start(const ToldRun& run) {
    if (!run.keys.fuse) return {};
    for (const auto& [end, choice] : run.keys.fuse->at)
        if (end.empty() || end == run.from.name) return {choice ? &*choice : nullptr, !choice};
    return {nullptr, true};
}

/// What a branch at a battery asks of the fuse at its beginning.
struct Branch {
    FuseEnd end;
    RunLoad load;
    std::vector<ShortCurrent> starting;
    std::optional<Current> motor;

    [[nodiscard]] FuseWish wish(Current ampacity, Resistance lead, Area conductor = thick) const {
        return {.end = end,
                .design = design_current(load).current,
                .ampacity = ampacity,
                .conductor = conductor,
                .parts = {},
                .appliance = fuse_max(load),
                .largest = starts_hard(load),
                .behind = motor,
                .lead = lead,
                .starting = starting};
    }
};

Branch branch_of(const Layout& layout, std::size_t run) {
    const bool trunk = layout.runs[run].role == RunRole::trunk;
    return {fused_end(layout, run, false), load_of(layout, run), starting_of(layout, run),
            trunk ? motor_fuse_behind(layout, run) : std::nullopt};
}

/// The fuse that a branch at a battery gets by its current alone; empty where nothing fits or there is to be none.
std::optional<FuseFit> fuse_by_current(const Layout& layout, std::size_t index, const Rules& rules) {
    const GivenAtStart given = given_at_start(layout.runs[index]);
    if (given.bare) return {};
    const Branch branch = branch_of(layout, index);
    const FuseWish wish = branch.wish(std::numeric_limits<Current>::infinity(), far_away);
    if (given.fuse) return judge_fuse(fuse_of(*given.fuse, layout.tables), wish, rules, layout.tables);
    return choose_fuse(wish, rules, layout.tables);
}

bool breaks_behind(const FuseFit& fuse, const FuseEnd& end, Resistance lead) {
    const FaultCurrent fault = fault_current(end.open_circuit, end.internal.expected, lead + fuse.fault.fuse);
    return fault.current <= fuse.fault.breaking_capacity.value;
}

bool breaks_at_the_post(const FuseFit& fuse, const FuseEnd& end) { return breaks_behind(fuse, end, Resistance{}); }

/// What the given cable of a run may carry, in the hottest place of its way; without end where it is still to be chosen.
Current ampacity_of(const Layout& layout, std::size_t run, const Rules& rules) {
    const RunKeys& keys = layout.runs[run].keys;
    if (!keys.size) return std::numeric_limits<Current>::infinity();
    auto thinner = conductor_of(layout.tables, *keys.size);
    if (const auto back = keys.return_size ? conductor_of(layout.tables, *keys.return_size) : std::nullopt;
        back && back->area < thinner->area)
        thinner = back;
    Temperature hottest = celsius(0);
    for (const WayPart& part : way_of(layout, run, false)) hottest = std::max(hottest, part.around);
    const auto limit = ampacity(layout.tables, rules.ampacity_basis, *thinner, keys.insulation->rating, hottest,
                                *keys.loaded_in_bundle, where_bundles_count(rules, layout.tables));
    return limit ? limit->current : Current{};
}

/// A way to a place of the profile on which a main fuse can sit: nothing in it would melt, and a cable that is given carries
/// as much.
bool takes_main_fuse(const Layout& layout, std::size_t run, const FuseFit& by_current, const Rules& rules) {
    const ToldRun& told = layout.runs[run];
    if (told.role != RunRole::trunk || by_current.given || told.keys.joints) return false;
    const Branch branch = branch_of(layout, run);
    const auto fit = choose_main_fuse(branch.wish(ampacity_of(layout, run, rules), Resistance{}), rules, layout.tables);
    return fit && fit->form != FuseForm::blade;
}

/// The largest that the branch may get: on a thin cable a holder carries less, and a larger family takes its place.
Current largest_of(const Layout& layout, std::size_t run, const FuseFit& by_current, const Rules& rules) {
    if (by_current.given) return by_current.rating;
    const Branch branch = branch_of(layout, run);
    const auto on_thin =
        choose_fuse(branch.wish(std::numeric_limits<Current>::infinity(), far_away, thin), rules, layout.tables);
    return on_thin ? std::max(by_current.rating, on_thin->rating) : by_current.rating;
}

/// A given fuse of another family that cannot break a short by itself, and a main fuse above it is given too.
bool is_behind_given_main(const Layout& layout, std::size_t run, const FuseFit& fuse, const Post& post,
                          const Rules& rules) {
    const RunKeys& keys = layout.runs[run].keys;
    Resistance lead{};
    if (keys.size)
        lead = lead_from_post(*conductor_of(layout.tables, *keys.size), keys.length->value, rules, layout.tables);
    return fuse.given && !breaks_behind(fuse, fused_end(layout, run, false), lead) && post.given && post.given->fuse &&
           fuse.rating < post.given->fuse->rating.value;
}

/// What hangs on a post with blades.
struct SmallBranches {
    std::vector<std::size_t> single, trunks;
    bool due = false;  ///< a blade of a single one could not break a short
    Current largest{};
};

SmallBranches small_branches(const Layout& layout, const Post& post, const Rules& rules) {
    SmallBranches small;
    for (std::size_t i = 0; i < layout.runs.size(); ++i) {
        const ToldRun& told = layout.runs[i];
        if (told.from != post.battery || (told.role != RunRole::appliance && told.role != RunRole::trunk)) continue;
        const auto fuse = fuse_by_current(layout, i, rules);
        if (!fuse) continue;
        const bool alone = breaks_at_the_post(*fuse, fused_end(layout, i, false));
        if (fuse->form != FuseForm::blade &&
            !(told.role == RunRole::appliance && is_behind_given_main(layout, i, *fuse, post, rules)))
            continue;
        // What somebody fitted on the way to a place of the profile, and breaks a short by itself, stays there.
        if (told.role == RunRole::trunk && fuse->given && alone) continue;
        if (takes_main_fuse(layout, i, *fuse, rules)) {
            if (!alone || post.given) small.trunks.push_back(i);
            continue;
        }
        small.single.push_back(i);
        small.due = small.due || !alone;
        small.largest = std::max(small.largest, largest_of(layout, i, *fuse, rules));
    }
    return small;
}

/// The name, or the first of it with a number that nothing has.
template <class Taken>
std::string free_name(std::string_view name, Taken taken) {
    std::string free(name);
    for (int number = 2; taken(free); ++number) free = std::string(name) + " " + std::to_string(number);
    return free;
}

GivenFuses alone(const FuseChoice& fuse) { return {{{std::string(), fuse}}}; }

/// The run from the post to its block, of a length that nobody measured.
ToldRun lead_of(const Layout& layout, const std::vector<ToldRun>& runs, const Post& post, const SmallBranches& small) {
    const auto run_taken = [&](const std::string& name) {
        return std::any_of(runs.begin(), runs.end(), [&](const ToldRun& run) { return *run.keys.name == name; });
    };
    const auto place_taken = [&](const std::string& name) {
        return std::any_of(runs.begin(), runs.end(),
                           [&](const ToldRun& run) { return run.from.name == name || run.to.name == name; });
    };
    Insulation insulation = *runs[small.single.front()].keys.insulation;
    for (const std::size_t i : small.single)
        if (runs[i].keys.insulation->rating < insulation.rating) insulation = *runs[i].keys.insulation;
    RunKeys keys;
    keys.from = post.battery.name;
    keys.to = free_name(post.names.block, place_taken);
    keys.name = free_name(post.names.run, run_taken);
    keys.length = Spread<Length>{practice(layout.tables, PracticeLength::main_lead).value};
    keys.return_ = ReturnPath{ByCable{}};
    keys.insulation = std::move(insulation);
    keys.loaded_in_bundle = 2;
    if (post.given) keys.fuse = alone(*post.given->fuse);
    if (post.have) keys.have = Have::fuse;
    const Place block{PlaceKind::junction, *keys.to};
    return {.keys = std::move(keys),
            .assumed = false,
            .path = {},
            .from = post.battery,
            .to = block,
            .role = RunRole::trunk,
            .main_fuse = true,
            .on_post = true,
            .largest_behind = small.largest + one_larger};
}

/// The branch begins at the block, and its fuse sits there.
void move_to(const Place& block, ToldRun& branch) {
    if (branch.keys.fuse)
        for (auto& [end, choice] : branch.keys.fuse->at)
            if (end == branch.from.name) end = block.name;
    branch.from = block;
    branch.keys.from = block.name;
}

void fuse_on_post(const Post& post, ToldRun& trunk) {
    trunk.on_post = true;
    if (!post.given) return;
    trunk.keys.fuse = alone(*post.given->fuse);
    if (post.have) trunk.keys.have = trunk.keys.have && has_cable(*trunk.keys.have) ? Have::cable_and_fuse : Have::fuse;
}

}  // namespace

std::vector<ToldRun> with_main_fuses(const Layout& layout, const Profile& complete, const Rules& rules) {
    std::vector<ToldRun> runs = layout.runs;
    const bool any_for_sale = std::any_of(layout.tables.fuse_families.begin(), layout.tables.fuse_families.end(),
                                          [&](const FuseFamilyRow& family) { return is_main_fuse(family, rules); });
    const Post posts[] = {{the(PlaceKind::house_battery), complete.battery.main_fuse,
                           complete.battery.have_main_fuse.value_or(false), own_run_of_house},
                          {the(PlaceKind::starter_battery), complete.starter.main_fuse,
                           complete.starter.have_main_fuse.value_or(false), own_run_of_starter}};
    std::vector<std::pair<std::size_t, ToldRun>> leads;
    for (const Post& post : posts) {
        if (post.wants_none() || (!post.given && !any_for_sale)) continue;
        const SmallBranches small = small_branches(layout, post, rules);
        if (small.single.empty() || !(small.due || post.given)) {
            for (const std::size_t i : small.trunks) fuse_on_post(post, runs[i]);
            continue;
        }
        for (const std::size_t i : small.trunks) runs[i].on_post = true;
        ToldRun lead = lead_of(layout, runs, post, small);
        for (const std::size_t i : small.single) move_to(lead.to, runs[i]);
        leads.emplace_back(small.single.front(), std::move(lead));
    }
    std::sort(leads.begin(), leads.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    for (auto& [before, lead] : leads) runs.insert(runs.begin() + static_cast<std::ptrdiff_t>(before), std::move(lead));
    return runs;
}

}  // namespace voltwright

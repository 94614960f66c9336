#include "voltwright/shopping/parts.hpp"

#include "voltwright/shopping/articles.hpp"
#include "voltwright/shopping/battery_bank.hpp"
#include "voltwright/shopping/cable_parts.hpp"
#include "voltwright/shopping/fuse_parts.hpp"
#include "voltwright/shopping/laying.hpp"
#include "voltwright/shopping/lugs.hpp"
#include "voltwright/shopping/wake_wire.hpp"
#include "voltwright/sizing/fitting.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace voltwright {

namespace {

/// Spare fuses of a kind. Common practice, no source.
constexpr int most_spares = 2;

/// Up to the next tenth of a metre.
Length in_tenths(Length length) { return metres(std::ceil(10.0 * in_metres(length) - 1e-6) / 10.0); }

/// A plug, a switch, or whatever else sits in a run beside its lugs and clamps.
void add_joint(PartsList& list, const JointResistance& joint, const RunPlan& run, const Candidate& taken,
               const Tables& tables) {
    const std::string& name = *run.task.run.name;
    const JointRow* row = find_joint(tables, joint.name);
    if (!row) return note_once(list.not_listed, {.code = PartsNoteCode::joints_as_resistances, .run = name});
    const bool plug = row->kind == JointKind::plug;
    Part part{.kind = plug ? PartKind::plug : PartKind::part, .what = joint.name, .rating = row->rating};
    for (const UnratedPart& unrated : unrated_parts(run.task.run, taken, run.choice.design.current, tables))
        if (unrated.part == joint.name) part.at_least = unrated.at_least;
    // A plug is two halves of one kind that mate.
    part.count = plug ? 2 * joint.count : joint.count;
    if (row->kind == JointKind::ferrule) part.size = taken.size;
    add(list, std::move(part), name);
}

void add_joints(PartsList& list, const System& system, const RunPlan& run, const Candidate& taken,
                const Tables& tables) {
    const std::string& name = *run.task.run.name;
    int clamps = 0;
    for (const JointResistance& joint : joints_of(run.task.run, taken.area, tables)) {
        const auto kind = joint_kind(tables, joint.name);
        if (kind == JointKind::battery_clamp)
            clamps += joint.count;
        else if (kind != JointKind::lug)
            add_joint(list, joint, run, taken, tables);
    }
    if (clamps > 0)
        add(list, {.kind = PartKind::battery_clamp, .what = std::string(article::battery_clamp), .count = clamps},
            name);
    for (const PlacedLugs& lugs : lugs_of(run.task, taken, tables)) add_lugs(list, system, lugs, name, tables);
}

void add_run(PartsList& list, const System& system, const RunPlan& run, const std::vector<FusePlace>& places,
             const Tables& tables) {
    const std::string& name = *run.task.run.name;
    if (run.task.assumed) list.assumed.push_back(name);
    const Candidate* taken = run.to_lay();
    if (!taken) {
        const auto nearest = run.taken() ? std::optional(run.taken()->size) : std::nullopt;
        return note_once(list.not_listed, {.code = PartsNoteCode::no_size_passes, .run = name, .size = nearest});
    }
    add_cables(list, run, *taken);
    add_joints(list, system, run, *taken, tables);
    add_fuses_of(list, run, *taken, places, tables);
    add_laying(list, system, run, *taken, tables);
}

/// Lengths with the allowance, spares, masses.
void add_to_what_is_bought(PartsList& list, const Tables& tables) {
    for (Part& part : list.parts) {
        if (part.length) part.length = in_tenths(*part.length * (Ratio{1.0} + list.allowance));
        if (part.kind == PartKind::fuse) {
            part.spare = std::min(part.count, most_spares);
            part.count += part.spare;
        }
        if (part.kind != PartKind::cable) continue;
        if (const auto conductor = conductor_of(tables, *part.size))
            part.mass = cable_mass(*conductor, *part.length, tables).mass;
    }
}

/// By kind, the thickest first.
void sort_parts(std::vector<Part>& parts, const Tables& tables) {
    const auto area = [&](const Part& part) {
        const auto conductor = part.size ? conductor_of(tables, *part.size) : std::nullopt;
        return conductor ? conductor->area : Area{};
    };
    std::stable_sort(parts.begin(), parts.end(), [&](const Part& a, const Part& b) {
        return a.kind != b.kind ? a.kind < b.kind : area(a) > area(b);
    });
}

/// More fuses on one battery's post than it takes, one or two: common practice, no source.
void note_crowded_posts(PartsList& list, const std::vector<RunPlan>& runs) {
    constexpr int most = 2;
    std::vector<std::pair<Place, int>> posts;
    for (const RunPlan& run : runs) {
        if (!run.to_lay()) continue;
        for (const FuseFit& fuse : run.to_lay()->fuses) {
            if (fuse.form != FuseForm::post) continue;
            const auto there =
                std::find_if(posts.begin(), posts.end(), [&](const auto& one) { return one.first == fuse.at; });
            if (there == posts.end())
                posts.emplace_back(fuse.at, 1);
            else
                ++there->second;
        }
    }
    for (const auto& [place, count] : posts)
        if (count > most)
            list.to_look.push_back({.code = PartsNoteCode::fuses_on_post, .place = place, .count = count});
}

void add_last_notes(PartsList& list) {
    if (!list.owned.empty()) list.to_look.push_back({.code = PartsNoteCode::fittings_of_the_owned});
    if (std::any_of(list.parts.begin(), list.parts.end(), [](const Part& part) { return part.in_line; }))
        list.not_listed.push_back({.code = PartsNoteCode::splices_of_holders});
    for (const PartsNoteCode code : {PartsNoteCode::tools, PartsNoteCode::battery_tray, PartsNoteCode::appliances,
                                     PartsNoteCode::terminals_of_appliances})
        list.not_listed.push_back({.code = code});
}

}  // namespace

PartsList parts_list(const System& system, const Plan& plan, const PriceList* prices, Ratio allowance,
                     const Tables& tables) {
    PartsList list{.title = system.title, .allowance = allowance, .parts = {}};
    if (!plan.holds()) list.to_look.push_back({.code = PartsNoteCode::plan_does_not_hold});
    note_crowded_posts(list, plan.runs);
    const std::vector<FusePlace> places = fuse_places(plan.runs);
    for (const RunPlan& run : plan.runs) add_run(list, system, run, places, tables);
    add_fuse_blocks(list, places);
    add_wake_wire(list, system, plan, tables);
    add_battery_bank(list, system, plan, tables);
    add_to_what_is_bought(list, tables);
    sort_parts(list.parts, tables);
    add_last_notes(list);
    if (prices) put_prices(list, *prices);
    return list;
}

}  // namespace voltwright

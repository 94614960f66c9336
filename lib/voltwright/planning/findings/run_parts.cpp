#include "voltwright/planning/findings/run_concerns.hpp"
#include "voltwright/planning/findings/run_remedies.hpp"
#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/sizing/fitting.hpp"
#include "voltwright/sizing/parts_in_run.hpp"

#include <utility>
#include <vector>

namespace voltwright {

namespace {

/// Of a part's rating: its maker's chart where one is published.
Source source_of_rating(const RunContext& of, const PartRating& part) {
    const JointRow* row = part.charted ? find_joint(of.tables, part.part, part.area) : nullptr;
    return row ? row->source : sources::part_curves;
}

/// The conductors of a run that get a lug at each end.
std::vector<std::pair<Area, Gauge>> conductors_with_lugs(const RunContext& of, const Candidate& size) {
    std::vector<std::pair<Area, Gauge>> conductors = {{size.area, size.size}};
    if (const auto& back = of.way().return_size; back && !of.way().body)
        conductors.emplace_back(conductor_of(of.tables, *back)->area, *back);
    return conductors;
}

Finding no_lug(const RunContext& of, const Length& stud, Area area, Gauge gauge) {
    const StudRow* nearest = nearest_stud(area, stud, of.tables);
    Finding one{.level = Level::stop,
                .code = FindingCode::lug_stud,
                .about = subject_of(of),
                .found = stud,
                .allowed = nearest->diameter,
                .arguments = {{"size", gauge}, {"nearest_stud", std::string(nearest->stud)}},
                .source = nearest->source};
    if (const Candidate* least = of.run.choice.least_that_fits()) {
        one.arguments.push_back({"cable", named_cable(of, least->size)});
        one.remedy.changes = size_change(of, least->size);
    }
    return one;
}

}  // namespace

void find_overloaded_parts(const RunContext& of, Findings& found) {
    const Candidate* size = of.run.taken();
    if (!size) return;
    for (const PartRating& part : size->parts) {
        const Current carried = peak_current(of.run.choice.design);
        if (carried <= part.rating) continue;
        Remedy remedy;
        if (const Candidate* least = of.run.choice.least_that_fits())
            remedy = {{{RemedyCode::part_on_cable, {{"cable", named_cable(of, least->size)}}}},
                      size_change(of, least->size)};
        found.push_back({.level = Level::stop,
                         .code = FindingCode::part_rating,
                         .about = subject_of(of),
                         .found = carried,
                         .allowed = part.rating,
                         .arguments = {{"part", part.part}},
                         .remedy = std::move(remedy),
                         .source = source_of_rating(of, part)});
    }
}

void find_unrated_parts(const RunContext& of, Findings& found) {
    const Candidate* size = of.run.taken();
    if (!size) return;
    const auto& flows = of.run.choice.design.short_time;
    for (const UnratedPart& part : unrated_parts(of.way(), *size, of.design(), of.tables)) {
        found.push_back({.level = Level::note,
                         .code = FindingCode::part_at_least,
                         .about = subject_of(of),
                         .found = part.at_least,
                         .arguments = {{"part", part.part}},
                         .source = sources::practice});
        if (!flows) continue;
        found.back().arguments.push_back({"peak", flows->current});
        found.back().arguments.push_back({"lasts", flows->on});
    }
}

void find_hot_joints(const RunContext& of, Findings& found) {
    const Candidate* size = of.run.taken();
    if (!size) return;
    for (const JointHeat& joint : hot_joints(of.way(), *size, of.design(), of.tables))
        found.push_back(
            {.level = Level::warn,
             .code = FindingCode::joint_heat,
             .about = subject_of(of),
             .found = joint.heat,
             .allowed = joint.limit,
             .arguments = {{"part", joint.part}, {"design", of.design()}, {"most", Voltage(joint.limit / of.design())}},
             .source = joint.source});
}

bool body_decides(const RunContext& of) {
    const Candidate* taken = of.run.to_lay();
    if (!taken || !taken->fits()) return true;
    CableRun worse = of.way();
    const Resistance more = *worse.body->high - worse.body->resistance.value;
    worse.body->resistance.value = *worse.body->high;
    worse.given = taken->size;
    if (!would_do(of, worse)) return true;
    const auto& way = of.run.way;
    return way && way->lost + of.design() * more > way->allowed;
}

void find_body_return(const RunContext& of, Findings& found) {
    const auto& body = of.way().body;
    if (!body || body->measured || !body_decides(of)) return;
    found.push_back({.level = Level::warn,
                     .code = FindingCode::body_return,
                     .about = subject_of(of),
                     .found = body->resistance.value,
                     .allowed = body->high,
                     .arguments = {{"body", of.run.task.body_name}},
                     .source = body->resistance.source});
}

void find_missing_lug(const RunContext& of, const Candidate& size, Findings& found) {
    const auto conductors = conductors_with_lugs(of, size);
    for (const Length& stud : of.way().studs)
        for (const auto& [area, gauge] : conductors)
            if (!lug_takes(area, stud, of.tables)) return found.push_back(no_lug(of, stud, area, gauge));
}

}  // namespace voltwright

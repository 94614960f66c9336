#include "voltwright/circuit/fuse_time.hpp"
#include "voltwright/planning/assumptions/assume.hpp"
#include "voltwright/planning/findings/run_concerns.hpp"
#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/planning/findings/system_concerns.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

using Kind = FindingSubject::Kind;

/// Runs by what they share, in the order in which that is met.
template <class Shared>
struct Sharing {
    std::vector<std::pair<Shared, std::vector<std::string>>> groups;

    void add(const Shared& shared, const std::string& run) {
        const auto same =
            std::find_if(groups.begin(), groups.end(), [&](const auto& group) { return group.first == shared; });
        if (same == groups.end())
            groups.push_back({shared, {run}});
        else
            same->second.push_back(run);
    }
};

RunContext context_of(const SystemContext& of, std::size_t run) {
    return {of.runs[run], run_before(of.runs, of.system.tree, run), of.system, of.tables};
}

/// Sizes that the ampacity table does not print.
void assume_ampacity_rows(const SystemContext& of, Assumptions& assumed) {
    Assumption rows{.code = AssumptionCode::ampacity_row, .about = {Kind::run}, .source = {}};
    std::vector<RowTaken> taken_rows;
    for (std::size_t i = 0; i < of.runs.size(); ++i) {
        const Candidate* taken = of.runs[i].to_lay();
        if (!taken || !taken->ampacity) continue;
        const Gauge size = judged_conductor(context_of(of, i), *taken).size;
        if (taken->ampacity->table_size == size) continue;
        rows.about.names.push_back(*of.runs[i].task.run.name);
        rows.source = taken->ampacity->table.source;
        const RowTaken row{size, taken->ampacity->table_size};
        if (std::find(taken_rows.begin(), taken_rows.end(), row) == taken_rows.end()) taken_rows.push_back(row);
    }
    if (taken_rows.empty()) return;
    rows.arguments = {{"rows", std::move(taken_rows)}};
    assumed.push_back(std::move(rows));
}

/// Runs without a fuse of their own behind one that protects them too.
void assume_fuses_before(const SystemContext& of, Assumptions& assumed) {
    Sharing<const FuseFit*> behind;
    for (std::size_t i = 0; i < of.runs.size(); ++i) {
        const RunContext run = context_of(of, i);
        for (const FuseEnd& end : run.way().fused_at)
            if (const FuseFit* front = left_bare(run.way(), end) ? protecting_fuse_before(run, end) : nullptr)
                behind.add(front, *run.way().name);
    }
    for (const auto& [front, names] : behind.groups)
        assumed.push_back({.code = AssumptionCode::fuse_before,
                           .about = {Kind::run, names},
                           .found = front->rating,
                           .arguments = {{"fuse", named_fuse(*front)}},
                           .source = sources::fuse_protects});
}

/// Fuses above what their cable may carry, where none is made below.
void assume_next_made(const SystemContext& of, Assumptions& assumed) {
    for (const RunPlan& run : of.runs) {
        const Candidate* taken = run.to_lay();
        if (!taken) continue;
        for (const FuseFit& fuse : taken->fuses)
            if (fuse.above_ampacity())
                assumed.push_back({.code = AssumptionCode::fuse_next_made,
                                   .about = {Kind::run, {*run.task.run.name}},
                                   .found = fuse.rating,
                                   .allowed = fuse.window.ampacity,
                                   .arguments = {{"fuse", named_fuse(fuse)}, {"least", fuse.window.at_least}},
                                   .source = sources::next_made_fuse});
    }
}

/// The first fuse of a run that is laid; nullptr where it has none.
const FuseFit* foremost_fuse(const RunPlan* run) {
    return run && run->to_lay() && !run->taken()->fuses.empty() ? &run->taken()->fuses.front() : nullptr;
}

/// Fuses in series of which both may blow.
void assume_unselective_fuses(const SystemContext& of, Assumptions& assumed) {
    Sharing<const FuseFit*> behind;
    for (std::size_t i = 0; i < of.runs.size(); ++i) {
        const FuseFit* second = foremost_fuse(&of.runs[i]);
        const FuseFit* first = second ? foremost_fuse(run_before(of.runs, of.system.tree, i)) : nullptr;
        if (!first) continue;
        const auto selective = is_selective(of.tables, {first->family, first->rating}, {second->family, second->rating},
                                            second->fault.expected.current);
        if (selective && !*selective) behind.add(first, *of.runs[i].task.run.name);
    }
    for (const auto& [front, names] : behind.groups)
        assumed.push_back({.code = AssumptionCode::selectivity,
                           .about = {Kind::run, names},
                           .arguments = {{"fuse", named_fuse(*front)}},
                           .source = sources::fuse_times});
}

/// Returns by the body that nobody measured, where its upper end changes nothing.
void assume_bodies(const SystemContext& of, Assumptions& assumed) {
    struct Body {
        std::string kind;
        Resistance usual, high;
        Source source;
        bool operator==(const Body& other) const { return kind == other.kind; }
    };
    Sharing<Body> bodies;
    for (std::size_t i = 0; i < of.runs.size(); ++i) {
        const auto& body = of.runs[i].task.run.body;
        if (!body || body->measured || body_decides(context_of(of, i))) continue;
        bodies.add({of.runs[i].task.body_name, body->resistance.value, *body->high, body->resistance.source},
                   *of.runs[i].task.run.name);
    }
    for (const auto& [body, names] : bodies.groups)
        assumed.push_back({.code = AssumptionCode::body_return,
                           .about = {Kind::run, names},
                           .found = body.usual,
                           .allowed = body.high,
                           .arguments = {{"body", body.kind}},
                           .source = body.source});
}

/// A smart alternator gives less volts: the charger takes more amps.
void assume_smart_current(const SystemContext& of, Assumptions& assumed) {
    if (of.system.relay || of.system.starter.alternator != Alternator::smart) return;
    for (const RunPlan& run : of.runs)
        if (run.task.role == RunRole::feed && run.to_lay() && run.figures)
            assumed.push_back({.code = AssumptionCode::smart_current,
                               .about = {Kind::run, {*run.task.run.name}},
                               .found = run.choice.design.current,
                               .allowed = run.figures->current,
                               .arguments = {{"gives_up", of.system.charger.input_off}},
                               .source = sources::constant_power});
}

/// What a relay lets through, and that the alternator bears it.
void assume_link(const SystemContext& of, Assumptions& assumed) {
    if (!of.system.relay || !closes(of.system)) return;
    const auto feed = std::find_if(of.runs.begin(), of.runs.end(), [](const RunPlan& run) { return run.link; });
    if (feed == of.runs.end()) return;
    const Current most = feed->choice.design.current;
    assumed.push_back({.code = AssumptionCode::relay_flat,
                       .about = {Kind::relay},
                       .found = most,
                       .arguments = {{"soc", Ratio{1.0 - of.system.house.depth_limit}}},
                       .source = sources::practice});
    if (!of.system.starter.spare_current)
        assumed.push_back({.code = AssumptionCode::relay_spare,
                           .about = {Kind::starter_battery},
                           .found = most,
                           .source = sources::practice});
}

void assume_starter(const SystemContext& of, Assumptions& assumed) {
    const InternalResistance& starter = of.system.starter.internal;
    const auto by_starter = [&](const RunPlan& run) { return run.task.from.kind == PlaceKind::starter_battery; };
    if (!starter.assumed || std::none_of(of.runs.begin(), of.runs.end(), by_starter)) return;
    assumed.push_back({.code = AssumptionCode::starter_assumed,
                       .about = {Kind::starter_battery},
                       .found = starter.low,
                       .allowed = starter.high,
                       .source = starter.source});
}

/// What the plates of a panel and its regulator print.
void assume_plates(const SystemContext& of, Assumptions& assumed) {
    if (!of.system.solar) return;
    const SolarPanel& solar = *of.system.solar;
    const Source& plate = of.tables.panel_plates.front().source;
    if (!solar.plate_given)
        assumed.push_back({.code = AssumptionCode::panel_plate,
                           .about = {Kind::panel},
                           .found = solar.all_short_circuit(),
                           .source = plate});
    if (!solar.output_given)
        assumed.push_back({.code = AssumptionCode::regulator_output,
                           .about = {Kind::regulator},
                           .found = solar.output,
                           .source = plate});
}

/// Small loads to which no run leads.
void assume_places_of_loads(const SystemContext& of, Assumptions& assumed) {
    FindingSubject small{Kind::load};
    for (const LoadUnit& load : of.system.loads)
        if (has_no_run(of.system, load) && !wants_a_run(load)) small.names.push_back(load.name);
    if (small.names.empty()) return;
    assumed.push_back({.code = AssumptionCode::no_run, .about = std::move(small), .source = sources::its_runs});
}

}  // namespace

Assumptions assumed_in_wiring(const System& system, const std::vector<RunPlan>& runs, const Tables& tables) {
    Assumptions assumed;
    const SystemContext of{system, runs, tables};
    assume_smart_current(of, assumed);
    assume_link(of, assumed);
    assume_bodies(of, assumed);
    assume_places_of_loads(of, assumed);
    assume_fuses_before(of, assumed);
    assume_next_made(of, assumed);
    assume_unselective_fuses(of, assumed);
    assume_shorts(of.runs, assumed);
    assume_ampacity_rows(of, assumed);
    assume_starter(of, assumed);
    assume_plates(of, assumed);
    return assumed;
}

}  // namespace voltwright

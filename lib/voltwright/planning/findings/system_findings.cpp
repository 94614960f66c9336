#include "voltwright/planning/findings/find.hpp"
#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/planning/findings/system_concerns.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

using Kind = FindingSubject::Kind;

bool smart(const System& system) { return system.starter.alternator == Alternator::smart; }

}  // namespace

void find_sleepless_charger(const SystemContext& of, Findings& found) {
    if (!of.system.has_charger() || !smart(of.system) || of.system.charger.wake != Wake::voltage) return;
    const ChemistryRow& starter = *find_chemistry(of.tables, "flooded");
    found.push_back({.level = Level::stop,
                     .code = FindingCode::never_sleeps,
                     .about = {Kind::charger},
                     .found = starter.full,
                     .allowed = of.system.charger.input_off,
                     .remedy = {{}, {{"charger.wake", "ignition"}}},
                     .source = starter.source,
                     .concern = Concern::engine_off});
}

void find_assumed_runs(const SystemContext& of, Findings& found) {
    FindingSubject assumed{Kind::run};
    Length whole{};
    for (const RunPlan& run : of.runs) {
        if (!run.task.assumed) continue;
        assumed.names.push_back(*run.task.run.name);
        whole += *run.task.run.length;
    }
    if (assumed.names.empty()) return;
    found.push_back({.level = Level::warn,
                     .code = FindingCode::assumed_runs,
                     .about = std::move(assumed),
                     .found = whole,
                     .source = sources::practice});
}

void find_basis_from_memory(const SystemContext& of, Findings& found) {
    const auto& rows = of.tables.ampacities;
    const auto recalled = std::find_if(rows.begin(), rows.end(), [&](const AmpacityRow& row) {
        return row.basis == of.system.rules.ampacity_basis && row.source.standing == Standing::memory;
    });
    if (recalled == rows.end()) return;
    found.push_back({.level = Level::warn,
                     .code = FindingCode::basis_from_memory,
                     .about = {Kind::rule, {"rules.ampacity"}},
                     .arguments = {{"basis", of.system.rules.ampacity_basis}},
                     .source = recalled->source});
}

void find_battery_sensor(const SystemContext& of, Findings& found) {
    if (!smart(of.system) || !of.system.charged_by_driving) return;
    found.push_back({.level = Level::note,
                     .code = FindingCode::battery_sensor,
                     .about = {Kind::run, {"feed"}},
                     .source = sources::practice});
}

void find_fuse_distance(const SystemContext& of, Findings& found) {
    const AmpacityBasisRow* basis = find_ampacity_basis(of.tables, of.system.rules.ampacity_basis);
    if (!basis || !basis->fuse_within || !basis->fuse_within_enclosed) return;
    found.push_back({.level = Level::note,
                     .code = FindingCode::fuse_distance,
                     .about = {Kind::fuses},
                     .found = *basis->fuse_within,
                     .allowed = *basis->fuse_within_enclosed,
                     .source = basis->source});
}

bool has_no_run(const System& system, const LoadUnit& load) {
    return std::find(system.unfed.begin(), system.unfed.end(), load.name) != system.unfed.end();
}

bool wants_a_run(const LoadUnit& load) {
    // More than what a lamp or a pump draws wants its own cable and fuse. Common practice, no source.
    constexpr Current heavy = amperes(5);
    return current_at(load.draw, nominal_voltage) > heavy;
}

void find_unfed_loads(const SystemContext& of, Findings& found) {
    for (const LoadUnit& load : of.system.loads)
        if (has_no_run(of.system, load) && wants_a_run(load))
            found.push_back({.level = Level::warn,
                             .code = FindingCode::no_run_heavy,
                             .about = {Kind::load, {load.name}},
                             .found = current_at(load.draw, nominal_voltage),
                             .source = sources::practice});
}

Findings find_in_system(const System& system, const std::vector<RunPlan>& runs, const Tables& tables) {
    Findings found;
    const SystemContext of{system, runs, tables};
    find_weak_fuses(of, found);
    find_in_relay(of, found);
    find_sleepless_charger(of, found);
    find_assumed_runs(of, found);
    find_basis_from_memory(of, found);
    find_battery_sensor(of, found);
    find_fuse_distance(of, found);
    find_unfed_loads(of, found);
    find_about_the_sun(of, found);
    return found;
}

}  // namespace voltwright

#include "voltwright/planning/findings/energy_concerns.hpp"
#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace voltwright {

namespace {

/// What lasts is never told longer than it is.
Duration rounded_down(Duration lasts) {
    const Duration step = lasts < hours(10) ? minutes(10) : hours(1);
    return step * std::floor(in_hours(lasts) / in_hours(step));
}

bool any_essential(const StarterLoads& loads) {
    return std::any_of(loads.loads.begin(), loads.loads.end(), [](const StarterLoad& load) { return load.essential; });
}

/// A load that the battery bears only as long as no drive is left out is worth a warning; one that it does not bear stops
/// the trip, unless it switches itself off in time and may be off.
Level level_of(const StarterLoads& loads) {
    if (loads.holds()) return Level::warn;
    return !loads.saved_by_guards || any_essential(loads) ? Level::stop : Level::warn;
}

FindingSubject subject_of(const StarterLoads& loads) {
    FindingSubject subject{FindingSubject::Kind::load};
    for (const StarterLoad& load : loads.loads) subject.names.push_back(load.name);
    return subject;
}

}  // namespace

void find_loads_on_the_starter(const EnergyContext& of, Findings& found) {
    if (!of.energy.starter) return;
    const StarterLoads& loads = *of.energy.starter;
    // How long it lasts stands among the hours.
    if (!loads.near_limit()) return;
    Finding one{.level = level_of(loads),
                .code = loads.holds() ? FindingCode::starter_load : FindingCode::starter_drained,
                .about = subject_of(loads),
                .found = loads.taken,
                .allowed = loads.allowed,
                .arguments = {{"least", loads.least}},
                .source = loads.source,
                .concern = Concern::engine_off};
    if (loads.lasts) one.arguments.push_back({"lasts", rounded_down(*loads.lasts)});
    found.push_back(std::move(one));
    if (loads.capacity_assumed && loads.near_limit())
        found.push_back({.level = Level::warn,
                         .code = FindingCode::starter_capacity_assumed,
                         .about = {FindingSubject::Kind::starter_battery},
                         .found = loads.capacity,
                         .source = loads.source,
                         .concern = Concern::trip});
}

void find_low_guards_on_the_starter(const EnergyContext& of, Findings& found) {
    const FridgeGuardRow& made_for_it = *find_fridge_guard(of.tables, "high");
    for (const FridgeUnit& fridge : of.system.fridges) {
        if (!fridge.cut_out || !(*fridge.cut_out < made_for_it.cut_out)) continue;
        if (source_of(of.system, fridge.name) != PlaceKind::starter_battery) continue;
        found.push_back({.level = Level::warn,
                         .code = FindingCode::starter_guard_low,
                         .about = {FindingSubject::Kind::load, {fridge.name}},
                         .found = *fridge.cut_out,
                         .allowed = made_for_it.cut_out,
                         .remedy = {{}, guard_changes(fridge.name, made_for_it)},
                         .source = made_for_it.source,
                         .concern = Concern::trip});
    }
}

}  // namespace voltwright

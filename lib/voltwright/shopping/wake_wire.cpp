#include "voltwright/shopping/wake_wire.hpp"

#include "voltwright/shopping/cable_parts.hpp"
#include "voltwright/shopping/fuse_parts.hpp"

#include <algorithm>

namespace voltwright {

namespace {

// Common practice, no source.
constexpr Current wake_fuse = amperes(3);
constexpr const char* wake_fuse_family = "blade";

bool is_woken_by_ignition(const System& system) {
    return system.charged_by_driving && system.charger.wake == Wake::ignition;
}

std::optional<Gauge> thinnest_allowed(const Rules& rules, const Tables& tables) {
    std::optional<Gauge> thinnest;
    std::optional<Area> least;
    for (const Gauge& size : rules.sizes) {
        const auto conductor = conductor_of(tables, size);
        if (!conductor || conductor->area < rules.smallest || (least && conductor->area >= *least)) continue;
        least = conductor->area;
        thinnest = size;
    }
    return thinnest;
}

}  // namespace

std::optional<Gauge> wake_wire_size(const System& system, const Tables& tables) {
    return is_woken_by_ignition(system) ? thinnest_allowed(system.rules, tables) : std::nullopt;
}

void add_wake_wire(PartsList& list, const System& system, const Plan& plan, const Tables& tables) {
    if (!is_woken_by_ignition(system)) return;
    const auto feed = std::find_if(plan.runs.begin(), plan.runs.end(),
                                   [](const RunPlan& run) { return run.task.role == RunRole::feed; });
    const auto size = wake_wire_size(system, tables);
    if (feed == plan.runs.end() || !size)
        return note_once(list.not_listed, {.code = PartsNoteCode::wake_wire_not_known});
    const std::string name = "wake wire";
    add_cable(list, cable_of("red", *size, feed->task.run.insulation, feed->task.run.length), name);
    add_fuses(list, wake_fuse_family, wake_fuse, name);
    add_holders(list, wake_fuse_family, FuseForm::blade, true, conductor_of(tables, *size)->area, name, 1, tables);
    note_once(list.not_listed, {.code = PartsNoteCode::wake_wire_terminals});
}

}  // namespace voltwright

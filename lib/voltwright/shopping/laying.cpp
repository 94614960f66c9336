#include "voltwright/shopping/laying.hpp"

#include "voltwright/shopping/articles.hpp"
#include "voltwright/shopping/cable_parts.hpp"
#include "voltwright/shopping/wake_wire.hpp"
#include "voltwright/sizing/fitting.hpp"

#include <algorithm>

namespace voltwright {

namespace {

std::optional<Length> outside_of(Gauge size, const Tables& tables) {
    const auto conductor = conductor_of(tables, size);
    return conductor ? outside_of(*conductor) : std::nullopt;
}

/// What brings a battery's main current: by ISO 10133, 7.4, supported closer.
bool is_battery_cable(const SystemRun& run) {
    return run.role == RunRole::feed || run.role == RunRole::output || run.role == RunRole::inverter ||
           run.role == RunRole::solar ||
           (run.role == RunRole::trunk && run.from.kind == PlaceKind::house_battery);
}

}  // namespace

void add_laying(PartsList& list, const System& system, const RunPlan& run, const Candidate& taken,
                const Tables& tables) {
    const SystemRun& task = run.task;
    const std::string& name = *task.run.name;
    std::vector<Length> outsides;
    for (const std::optional<Gauge>& size : {std::optional(taken.size), back_of(task, taken.size)}) {
        if (!size) continue;
        const auto outside = outside_of(*size, tables);
        if (!outside)
            return note_once(list.to_look, {.code = PartsNoteCode::outside_not_known, .run = name, .size = *size});
        outsides.push_back(*outside);
    }
    // The wake wire goes the feed's way, in its tube.
    if (const auto wire = task.role == RunRole::feed ? wake_wire_size(system, tables) : std::nullopt)
        if (const auto outside = outside_of(*wire, tables)) outsides.push_back(*outside);
    const TubeRow* tube = tube_for(outsides, tables);
    if (!tube) return note_once(list.to_look, {.code = PartsNoteCode::no_tube_wide_enough, .run = name});
    add(list,
        {.kind = PartKind::conduit,
         .what = article::conduit(tube->tube),
         .bore = tube->bore,
         .length = task.run.length},
        name);
    if (task.role == RunRole::panel)
        add(list,
            {.kind = PartKind::grommet,
             .what = std::string(article::roof_gland),
             .bore = *std::max_element(outsides.begin(), outsides.end()),
             .count = static_cast<int>(outsides.size())},
            name);
    else if (task.run.way.size() > 1)
        add(list, {.kind = PartKind::grommet, .what = std::string(article::grommet), .bore = tube->outside, .count = 2},
            name);
    const SupportSpacingRow* spacing = find_support_spacing(tables, is_battery_cable(task) ? "battery cable" : "cable");
    add(list,
        {.kind = PartKind::clip,
         .what = std::string(article::clip),
         .bore = tube->outside,
         .count = supports(task.run.length, spacing->apart)},
        name);
}

}  // namespace voltwright

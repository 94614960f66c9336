#include "voltwright/vehicle/system.hpp"

#include <algorithm>

namespace voltwright {

std::string_view show(RunRole role) {
    switch (role) {
        case RunRole::feed: return "feed";
        case RunRole::output: return "charger output";
        case RunRole::appliance: return "appliance";
        case RunRole::trunk: return "trunk";
        case RunRole::inverter: return "inverter";
        case RunRole::panel: return "panel";
        case RunRole::solar: return "solar";
    }
    return "";
}

std::optional<std::size_t> run_to(const System& system, const Place& place) {
    const auto found = std::find_if(system.runs.begin(), system.runs.end(), [&](const SystemRun& run) {
        return run.to == place && run.role != RunRole::solar;
    });
    if (found == system.runs.end()) return {};
    return static_cast<std::size_t>(found - system.runs.begin());
}

const Place& source_of(const System& system, std::size_t run) { return system.runs[system.tree.root[run]].from; }

PlaceKind source_of(const System& system, std::string_view consumer) {
    const auto run = run_to(system, {PlaceKind::consumer, std::string(consumer)});
    return run ? source_of(system, *run).kind : PlaceKind::house_battery;
}

}  // namespace voltwright

#include "voltwright/planning/warm_starts.hpp"

#include "voltwright/simulation/build_scenario.hpp"

#include <algorithm>

namespace voltwright {

namespace {

const FridgeNeed* cold_at_start(const Scenario& scenario, const std::string& name) {
    for (const FridgeNeed& fridge : scenario.fridges)
        if (fridge.name == name) return fridge.starts_cold ? &fridge : nullptr;
    return nullptr;
}

}  // namespace

std::vector<std::string> fridges_to_cool_first(const ScenarioInputs& inputs, const Scenario& scenario,
                                               const SimulationOptions& options, const TripResult& trip) {
    if (!trip.holds()) return {};
    Charge more{};
    for (const FridgeNeed& fridge : scenario.fridges)
        if (fridge.starts_cold) more += fridge.warm_start.electric / fridge.counted_at;
    // What is simulated may take a little more than this, by the volts at which it is drawn.
    if (1.25 * more < (trip.lowest - trip.deepest_allowed) * scenario.battery.capacity) return {};

    ScenarioInputs warm = inputs;
    std::vector<std::string> names;
    for (ScheduledConsumer& one : warm.consumers) {
        const FridgeNeed* need = one.fridge ? cold_at_start(scenario, one.consumer.name) : nullptr;
        if (!need) continue;
        one.fridge->restocks.push_back({{1}, ClockTime{0}, need->warm_start.mass, need->warm_start.from});
        names.push_back(need->name);
    }
    if (names.empty() || simulate(trip_scenario(warm), options).holds()) return {};
    return names;
}

}  // namespace voltwright

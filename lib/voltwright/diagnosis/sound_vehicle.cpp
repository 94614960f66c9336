#include "voltwright/diagnosis/sound_vehicle.hpp"

namespace voltwright {

SoundVehicle sound_vehicle(const CircuitModel& model, const System& system, const Plan& plan, const Tables& tables) {
    SoundVehicle sound{.model = model,
                       .system = system,
                       .plan = plan,
                       .tables = tables,
                       .meter = meter_of(system.meter),
                       .batteries = battery_limits(system, tables),
                       .resistances = model.expected_resistances(),
                       .root = {}};
    for (std::size_t i = 0; i < model.branches.size(); ++i)
        sound.root.push_back(model.branches[i].from ? sound.root[*model.branches[i].from] : i);
    return sound;
}

SourceState usual_sources(const SoundVehicle& sound, const TestCondition& condition) {
    return usual_sources(sound.model, condition, sound.system, sound.tables);
}

std::optional<Solution> solve(const SoundVehicle& sound, const TestCondition& condition) {
    return solve(sound.model, condition, usual_sources(sound, condition), sound.resistances);
}

std::optional<MeterValue> predicted_reading(const SoundVehicle& sound, const Probe& probe,
                                            const TestCondition& condition) {
    const auto solution = solve(sound, condition);
    if (!solution) return {};
    return predicted_reading(sound.model, probe, *solution, sound.resistances);
}

}  // namespace voltwright

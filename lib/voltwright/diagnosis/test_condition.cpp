#include "voltwright/diagnosis/test_condition.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/tables/practice.hpp"

namespace voltwright {

Voltage house_at_rest(const System& system, Ratio charged, const Tables& tables) {
    return rest_voltage(tables, system.house.chemistry->chemistry, charged);
}

Voltage rested_house(const System& system, const Tables& tables) {
    return house_at_rest(system, practice(tables, PracticeShare::house_when_tested).value, tables);
}

SourceState usual_sources(const CircuitModel& model, const TestCondition& condition, const System& system,
                          const Tables& tables) {
    return {.starter = condition.engine == Engine::off      ? rested_starter
                       : condition.engine == Engine::idling ? system.starter.lowest_running
                                                            : system.starter.running,
            .house = condition.charger_runs() ? charging_house : rested_house(system, tables),
            .charge = model.charger_output,
            .draws = std::vector<double>(model.loads.size(), 1.0),
            .losses = 1.0};
}

}  // namespace voltwright

#include "voltwright/planning/untimed_loads.hpp"

#include "voltwright/simulation/build_scenario.hpp"
#include "voltwright/simulation/operating_point.hpp"

#include <algorithm>

namespace voltwright {

namespace {

constexpr int quarters_of_a_day = 96;

bool untimed(const System& system, const ScheduledConsumer& one) {
    const LoadUnit* load = find_load(system, one.consumer.name);
    return load && !load->when_given;
}

bool holds_with(ScenarioInputs& inputs, const SimulationOptions& options, int quarters) {
    for (ScheduledConsumer& one : inputs.consumers)
        if (one.consumer.not_counted) one.duty = static_cast<double>(quarters) / quarters_of_a_day;
    return simulate(trip_scenario(inputs), options).holds();
}

/// It holds with none of a day's quarters of an hour.
std::optional<Duration> longest_that_holds(ScenarioInputs inputs, const SimulationOptions& options) {
    if (holds_with(inputs, options, quarters_of_a_day)) return {};
    int holds = 0, fails = quarters_of_a_day;
    while (fails - holds > 1) {
        const int middle = (holds + fails) / 2;
        (holds_with(inputs, options, middle) ? holds : fails) = middle;
    }
    return hours(24) * (static_cast<double>(holds) / quarters_of_a_day);
}

}  // namespace

UntimedLoads untimed_loads(const System& system, const ScenarioInputs& inputs, const SimulationOptions& options,
                           bool holds) {
    UntimedLoads found;
    for (const ScheduledConsumer& one : inputs.consumers) {
        if (!untimed(system, one)) continue;
        const Charge an_hour = drawn_by(one.consumer, nominal_voltage) * hours(1);
        if (one.consumer.not_counted) {
            found.off.push_back(one.consumer.name);
            found.off_an_hour += an_hour;
        } else {
            found.on.push_back(one.consumer.name);
            found.on_a_day += 24.0 * an_hour;
        }
    }
    if (holds && !found.off.empty()) found.bearable = longest_that_holds(inputs, options);
    return found;
}

}  // namespace voltwright

#pragma once

#include "voltwright/simulation/scenario_inputs.hpp"
#include "voltwright/simulation/simulate.hpp"

#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// Loads of which the profile says neither hours nor duty. What is essential, and what hangs on the starter battery, counts as
/// on day and night; every other as off.
struct UntimedLoads {
    std::vector<std::string> off, on;
    Charge off_an_hour{};  ///< what all of `off` would take in an hour, at 12 V
    Charge on_a_day{};     ///< what all of `on` take in a day, at 12 V
    /// So long a day may all of `off` be on and the trip holds, to a quarter of an hour and no more than that; empty where
    /// there is none, where the trip holds with them day and night, and where it does not hold without them.
    std::optional<Duration> bearable = {};

    /// That is less than a usual load may be on in a day: 8 h, common practice, no source.
    [[nodiscard]] bool decide() const { return bearable && *bearable < hours(8); }
};

/// `holds` without those that are off, simulated with these options.
UntimedLoads untimed_loads(const System& system, const ScenarioInputs& inputs, const SimulationOptions& options,
                           bool holds);

}  // namespace voltwright

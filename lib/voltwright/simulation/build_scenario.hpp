#pragma once

#include "voltwright/simulation/scenario_inputs.hpp"

#include <optional>

namespace voltwright {

/// The trip as the profile tells it, with the consumers of one of the batteries.
Scenario trip_scenario(const ScenarioInputs& inputs, FedBy fed_by = FedBy::house);

/// Parked: the trip's hottest day, or its coldest, again and again from a clock time on, fridge already cold, engine and
/// panel off.
Scenario parked_scenario(const ScenarioInputs& inputs, Duration clock, int days, FedBy fed_by = FedBy::house,
                         ParkedDay on = ParkedDay::hottest);

/// Whether the coldest day may be the worse one: another than the hottest, or a frost, in which the sun is not counted on.
bool judges_the_coldest(const ScenarioInputs& inputs);

/// The usual day's first drive alone, from its beginning and as long as wanted, over midnight too: what driving is worth.
/// Empty without a drive.
std::optional<Scenario> one_drive_scenario(const ScenarioInputs& inputs, Duration length);

}  // namespace voltwright

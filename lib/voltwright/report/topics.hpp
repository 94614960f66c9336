#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/provenance/formula.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// A number of the plan that can be explained, and by what name: `feed.drop`.
struct Topic {
    std::string name;   ///< run, fridge or part, and number: `feed.drop`, `charger.output`
    std::string words;  ///< "volts lost in the feed"
};

/// Everything that explain_topic() understands, in the order of the plan.
std::vector<Topic> topics(const Plan& plan);

/// What the plan computed under that name, with its equation, its inputs and their sources. Empty when there is no such
/// number. A run's name alone answers its whole candidate.
std::optional<Explanation> explain_topic(const Plan& plan, std::string_view name);

/// The run as one explanation: what the JSON answer is written from.
Explanation explain_run(const RunPlan& run);

}  // namespace voltwright

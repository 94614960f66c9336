#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/planning/replan.hpp"

#include <string>

namespace voltwright {

/// The answer of `plan --format json`, held by shared/plan.schema.json. The keys of a run's numbers come from the rows that
/// describe the models; each carries its unit.
std::string plan_json(const Plan& plan);

/// The runs alone, with every candidate: the answer of `wire --format json`. All runs, or the one of that name.
std::string wire_json(const Plan& plan, std::string_view run);

/// The answers of `trip`, `autonomy` and `replan`; the plan of a trip has to be made with its timeline.
std::string trip_json(const Plan& plan);
std::string autonomy_json(const AutonomyAnswer& answer);
std::string replan_json(const Replan& replan);

}  // namespace voltwright

#pragma once

#include "voltwright/planning/plan.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace voltwright {

/// The vehicle with changes of its profile made; empty where they are refused.
using SystemWith = std::function<std::optional<System>(const std::vector<Change>&)>;

/// Takes each stop at its word: makes the changes of its remedy, plans again, and looks.
///
/// A remedy stands if the finding is gone and nothing stops the plan that did not stop it before. Where it brings another stop
/// that has a cure, both are tried together, three such at most, and stand as one; where that has none, it is said and no
/// change is offered. What does not cure its own finding is taken back: that asks then for what its code always asks for.
///
/// Costs a plan for each different remedy; a plan without stops pays nothing. `objective` is what the plan was made for.
void try_remedies(Plan& plan, const SystemWith& with, const std::optional<Objective>& objective = {},
                  const Tables& tables = built_in_tables());

}  // namespace voltwright

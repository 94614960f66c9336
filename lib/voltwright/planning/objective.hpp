#pragma once

#include "voltwright/sizing/choice.hpp"
#include "voltwright/units/money.hpp"
#include "voltwright/vehicle/system.hpp"

#include <functional>
#include <optional>
#include <string>

namespace voltwright {

/// What is to be least where cables are chosen, in the place of copper: the money that a size costs. Who asks the prices
/// makes it (shopping/cable_cost.hpp).
struct Objective {
    std::string currency;  ///< of the costs
    int decimals = 2;      ///< of the currency
    /// What a run costs in one size; empty: it is not for sale.
    std::function<std::optional<Money>(const System&, const SystemRun&, const Candidate&, const Tables&)> cost;
    /// Whether what prices that size prices any size alike, so that it does not tell a thick cable from a thin one.
    std::function<bool(const SystemRun&, Gauge)> any_size_alike;
};

}  // namespace voltwright

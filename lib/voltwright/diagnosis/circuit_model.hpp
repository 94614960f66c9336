#pragma once

#include "voltwright/circuit/network.hpp"
#include "voltwright/diagnosis/circuit_element.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// The vehicle as a meter sees it: every joint and cable a resistor of its own, with what it should have.
namespace voltwright {

struct Plan;
struct RunPlan;

/// A run of the plan.
struct Branch {
    std::string run;
    std::size_t plan_run;  ///< among the plan's
    RunRole role;
    std::string near, far;            ///< points, without the pole
    bool by_starter;                  ///< fed by the starter battery; the others by the house battery
    std::optional<std::size_t> from;  ///< the branch at whose far end it begins; empty: at its battery
    std::vector<std::size_t> elements;
};

/// A load, and the branch at whose far end it hangs.
struct CircuitLoad {
    std::string name;
    std::size_t branch;
    LoadLaw draw;
};

/// What an inverter takes by itself, at the far end of its branch.
struct InverterStandby {
    std::size_t branch;
    Power power;
};

/// The runs with a cable, each made of its elements.
struct CircuitModel {
    std::vector<CircuitElement> elements;
    std::vector<Branch> branches;  ///< each behind the one that it begins at
    std::vector<CircuitLoad> loads;
    std::optional<std::size_t> feed, output;
    Current charger_output{};
    Ratio charger_efficiency = percent(100);
    Voltage charger_input_off = volts(12.7);
    std::optional<Current> charger_input_limit = {};
    std::optional<InverterStandby> inverter = {};

    [[nodiscard]] std::optional<std::size_t> branch_of(std::string_view run) const;
    [[nodiscard]] std::optional<std::size_t> element_of(std::string_view name) const;
    /// Does the way from the battery to the far end of `place` go through `branch`?
    [[nodiscard]] bool leads_through(std::size_t branch, std::size_t place) const;
    /// Is it one of the two runs of the charger?
    [[nodiscard]] bool is_chargers(std::size_t branch) const { return branch == feed || branch == output; }
    /// Of each element, in their order.
    [[nodiscard]] std::vector<Resistance> expected_resistances() const;
};

/// From a panel to its regulator, or from there to the battery.
bool is_of_the_sun(const RunPlan& run);

CircuitModel circuit_model_of(const System& system, const Plan& plan, const Tables& tables);

}  // namespace voltwright

#pragma once

#include "voltwright/diagnosis/circuit_model.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>
#include <string>
#include <vector>

/// What is going on while something is measured.
namespace voltwright {

struct TestCondition {
    Engine engine = Engine::off;
    std::vector<std::string> with = {};  ///< loads that are on
    bool charger_off = false;            ///< switched off while the engine runs

    /// The alternator charges the starter battery.
    [[nodiscard]] bool charging() const { return engine != Engine::off; }
    /// And the charger the house battery.
    [[nodiscard]] bool charger_runs() const { return charging() && !charger_off; }
    [[nodiscard]] bool is_on(const CircuitLoad& load) const {
        return std::find(with.begin(), with.end(), load.name) != with.end();
    }
    friend bool operator==(const TestCondition&, const TestCondition&) = default;
};

/// What the batteries, the charger and the loads do then.
struct SourceState {
    Voltage starter, house;     ///< at the posts
    Current charge;             ///< out of the charger
    std::vector<double> draws;  ///< of each load, as a share of what the profile says
    double losses = 1.0;        ///< what the charger takes in, as a share of what its efficiency says
};

/// What is usual then: batteries rested or being charged, the alternator at its least when it idles, all loads as the
/// profile says.
SourceState usual_sources(const CircuitModel& model, const TestCondition& condition, const System& system,
                          const Tables& tables);

/// What the house battery shows at rest, somewhat used as engine-off tests find it: at 70 % (data/practice/shares.toml).
Voltage rested_house(const System& system, const Tables& tables);

/// What the house battery shows at rest at a state of charge.
Voltage house_at_rest(const System& system, Ratio charged, const Tables& tables);

/// The starter battery at rest and well charged; and what the house battery shows while it takes all that the charger
/// gives (data/practice/voltages.toml).
inline const Voltage rested_starter = in_practice(PracticeVoltage::rested_starter);
inline const Voltage charging_house = in_practice(PracticeVoltage::charging_house);

}  // namespace voltwright

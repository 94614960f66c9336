#pragma once

#include "voltwright/provenance/source.hpp"
#include "voltwright/simulation/scenario_inputs.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// Something that the starter battery feeds.
struct StarterLoad {
    std::string name;
    Charge taken;  ///< in the longest time without the engine
    bool essential;
};

/// What hangs on the starter battery, and whether the engine still starts after the longest time without it.
///
/// Counted on the trip's hottest day again and again, each load at 12 V through its cable and the fridge by its own
/// model. The battery's ampere-hours are those of its 20-hour rate.
struct StarterLoads {
    std::vector<StarterLoad> loads;
    std::vector<FridgeNeed> fridges;
    Charge capacity;
    bool capacity_assumed;
    Ratio least;                    ///< state of charge that has to be left
    Charge allowed;                 ///< from where the engine leaves it down to that
    Duration from;                  ///< clock at which the longest time without the engine begins
    Duration stand;                 ///< how long that is
    Charge taken;                   ///< by all of them in that time
    std::optional<Duration> lasts;  ///< until `allowed` is taken; empty: longer than anybody looked
    bool saved_by_guards;           ///< each switches itself off before that
    Source source;                  ///< of the limit

    [[nodiscard]] bool holds() const { return taken <= allowed; }
    /// It does not hold, or would not with one drive left out.
    [[nodiscard]] bool near_limit() const { return !holds() || (lasts && *lasts < 2.0 * stand); }
    /// "fridge, alarm"
    [[nodiscard]] std::string names() const;
};

/// Empty when nothing hangs on the starter battery beside the charger.
std::optional<StarterLoads> starter_loads(const System& system, const ScenarioInputs& inputs, const Tables& tables);

}  // namespace voltwright

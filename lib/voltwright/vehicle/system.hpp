#pragma once

#include "voltwright/profile/values.hpp"
#include "voltwright/sizing/choice.hpp"
#include "voltwright/vehicle/equipment.hpp"
#include "voltwright/vehicle/run_tree.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// What a run is for. Drop limit, supply and words follow from it.
enum class RunRole {
    feed,       ///< starter battery to charger
    output,     ///< charger to house battery
    appliance,  ///< to one load or fridge
    trunk,      ///< to a place from which other runs go on
    inverter,   ///< to the inverter
    panel,      ///< from solar panels to their regulator
    solar,      ///< from the regulator to the house battery
};
std::string_view show(RunRole role);

/// A run of the vehicle, ready to be sized.
struct SystemRun {
    RunRole role;
    bool assumed;      ///< the profile does not describe it
    std::string path;  ///< its key's path in the profile; empty when assumed
    Place from, to;
    CableRun run;
    RunLoad load;
    Supply supply;
    bool essential = true;
    std::string body_name = {};           ///< which body the return is taken for, when it is not measured
    std::vector<ClockWindow> hours = {};  ///< in which a load that it leads to is on; empty: at any time
    bool main_fuse = false;  ///< the plan's own, from a main fuse on a battery's post to the block that it serves
};

/// The vehicle with everything found and tied: what it has, what it is held against, and the runs between.
struct System : Equipment {
    std::string title = {};
    Rules rules = {};
    std::vector<SystemRun> runs = {};
    RunTree tree = {};                    ///< how the runs hang on each other, by their index
    std::vector<std::string> unfed = {};  ///< loads that no run leads to: they sit at the battery
};

/// The run that leads to a place, that of the sun to the battery left out; empty where none does: what is there sits at the house battery.
std::optional<std::size_t> run_to(const System& system, const Place& place);

/// Where the way of a run begins.
const Place& source_of(const System& system, std::size_t run);
/// What the way to a load or a fridge begins at; the house battery where no run leads there.
PlaceKind source_of(const System& system, std::string_view consumer);

}  // namespace voltwright

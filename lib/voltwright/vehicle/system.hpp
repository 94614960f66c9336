#pragma once

#include "voltwright/sizing/choice.hpp"
#include "voltwright/vehicle/profile.hpp"
#include "voltwright/vehicle/values.hpp"

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
    solar,      ///< between panel, regulator and battery: not sized yet
};
std::string_view show(RunRole role);

/// A run of the vehicle, ready to be sized.
struct SystemRun {
    RunRole role;
    bool assumed;      ///< the profile does not describe it
    std::string path;  ///< its key's path in the profile; empty when assumed
    std::string from, to;
    CableRun run;
    RunLoad load;
    Supply supply;
    bool essential = true;
    std::vector<std::string> feeds;       ///< what it leads to, by name
    std::string body_name = {};           ///< which body the return is taken for, when it is not measured
    std::vector<ClockWindow> hours = {};  ///< in which a load that it leads to is on; empty: at any time
};

/// The vehicle with everything found and tied: names looked up, defaults filled in, forgotten runs assumed.
struct System {
    std::string title;
    Profile given;     ///< as the user wrote it
    Profile complete;  ///< with every default
    Rules rules;
    InternalResistance starter, house;
    const ChemistryRow* chemistry;
    Compensation compensation;  ///< of the charging voltages: none without a sensor
    std::vector<SystemRun> runs;
    std::vector<std::string> unfed;  ///< loads that no run leads to: they sit at the battery
};

/// Where the way to a place begins: `starter`, `battery`, `charger`, `panel`; `battery` where no run leads there.
std::string_view source_of(const System& system, std::string_view place);

}  // namespace voltwright

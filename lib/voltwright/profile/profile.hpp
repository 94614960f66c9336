#pragma once

#include "voltwright/profile/sections/battery.hpp"
#include "voltwright/profile/sections/charger.hpp"
#include "voltwright/profile/sections/day.hpp"
#include "voltwright/profile/sections/fridge.hpp"
#include "voltwright/profile/sections/inverter.hpp"
#include "voltwright/profile/sections/load.hpp"
#include "voltwright/profile/sections/meter.hpp"
#include "voltwright/profile/sections/reading.hpp"
#include "voltwright/profile/sections/rules.hpp"
#include "voltwright/profile/sections/run.hpp"
#include "voltwright/profile/sections/solar.hpp"
#include "voltwright/profile/sections/starter.hpp"
#include "voltwright/profile/sections/trip.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// A vehicle and a trip, as somebody described them.
struct Profile {
    Given<std::string> title;
    TripKeys trip;
    std::vector<DayKeys> days;
    RulesKeys rules;
    StarterKeys starter;
    ChargerKeys charger;
    BatteryKeys battery;
    Given<SolarKeys> solar;
    Given<InverterKeys> inverter;
    std::vector<RunKeys> runs;
    std::vector<LoadKeys> loads;
    std::vector<FridgeKeys> fridges;
    std::vector<ReadingKeys> readings;
    MeterKeys meter;
};

/// The stud of the terminals at a place: at the starter battery, the charger and the house battery, where it is said.
Given<Stud> stud_at(const Profile& profile, std::string_view place);

}  // namespace voltwright

#pragma once

#include "voltwright/reasons/finding.hpp"
#include "voltwright/trip/autonomy.hpp"
#include "voltwright/trip/journey.hpp"
#include "voltwright/trip/march.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// What driving gives back.
struct DrivingWorth {
    Charge an_hour;     ///< net into the battery, loads on: over the whole trip, for each hour driven
    Charge first_hour;  ///< in the first hour of the usual day's first drive, from the depth limit
};

/// Something that costs nothing to set, and what it is good for.
struct Setting {
    std::string what;   ///< "fridge guard", "charger profile"
    std::string value;  ///< "its standard setting, 10.4 V"
    std::string why;
};

/// The energy half of a plan.
struct Night {
    Trip trip;          ///< with the fridge's guard as it is set; if that is not known, the worse of the usual settings
    Autonomy autonomy;  ///< from a full battery; if the setting is not known, with the high one
    GuardSetting guard;
    bool guard_known;           ///< the profile says it for every fridge, or there is none
    std::optional<Trip> other;  ///< with the other usual setting
    std::optional<Autonomy> other_autonomy;
    std::optional<DrivingWorth> driving;  ///< empty when nobody drives
    Duration night_from, night_to;        ///< from the evening to the next drive, or 14 hours on; by the clock
    Charge a_night;                       ///< what the loads take in that time of the hottest day
    ChargerPoint charger;
    Current least_charger;  ///< what heat leaves of its output, while driving
    Current most_drawn;     ///< by all loads that are on together, at the end of the battery's rating
    std::vector<FridgeNeed> fridges;
    Ratio depth_limit;
    std::vector<Setting> settings;
    Findings findings;  ///< of the energy side; the plan's own list holds them too

    [[nodiscard]] bool holds() const { return trip.holds(); }
};

Night make_night(const System& system, const std::vector<LaidRun>& runs, const Tables& tables, bool points = false);

/// What the energy side has to say: what stops the trip, what wears the battery out, what is only assumed.
Findings find_in_night(const Night& night, const System& system, const Tables& tables);

/// What `autonomy` asks: from where, and from when.
struct AutonomyQuestion {
    std::optional<Ratio> from;      ///< state of charge
    std::optional<Voltage> rested;  ///< or a rested lead battery's voltage
    std::optional<Duration> at;     ///< clock
};

/// The answer with each usual setting of the fridge's guard, or the one that the profile gives.
struct AutonomyAnswer {
    Autonomy standard;
    std::optional<Autonomy> high;  ///< when the setting is not known, and there is a fridge
    std::optional<DrivingWorth> driving;
    Ratio depth_limit;
};

/// Empty when the state of charge cannot be told from the voltage: lithium.
std::optional<AutonomyAnswer> answer_autonomy(const System& system, const std::vector<LaidRun>& runs,
                                              const AutonomyQuestion& question, const Tables& tables);

}  // namespace voltwright

#pragma once

#include "voltwright/planning/assumptions/assumption.hpp"
#include "voltwright/planning/cold.hpp"
#include "voltwright/planning/dull_days.hpp"
#include "voltwright/planning/findings/finding.hpp"
#include "voltwright/planning/starter_loads.hpp"
#include "voltwright/planning/untimed_loads.hpp"
#include "voltwright/simulation/autonomy.hpp"
#include "voltwright/simulation/scenario_inputs.hpp"
#include "voltwright/simulation/simulate.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// What driving gives back.
struct DrivingWorth {
    Charge an_hour;            ///< net into the battery, loads on: over the whole trip, for each hour driven
    Charge first_hour;         ///< in the first hour of the usual day's first drive, from the depth limit
    Ratio from;                ///< state of charge from which `filled` counts
    FillingTimes filled = {};  ///< how long that drive would have to be; empty: longer than longest_drive
};

/// Nobody drives longer in one go.
inline constexpr Duration longest_drive = hours(12);

/// What a battery does that has come to the usual end of its life, where nobody says how worn it is.
struct WornBattery {
    Ratio health;
    Autonomy autonomy;
    bool fails_trip = false;  ///< which one as new does not
};

/// What costs nothing to set. `report` finds the words.
struct Settings {
    /// The two usual settings of a fridge's guard, where the profile does not say which it is on.
    struct GuardChoice {
        Voltage standard, high;
    };
    std::optional<GuardChoice> guard;  ///< of those that the house battery feeds
    /// A fridge on the starter battery: there is one setting that is made for that.
    struct StarterGuard {
        std::string name;
        LowVoltageCutOff set;
    };
    std::vector<StarterGuard> starter_guards = {};
    Voltage absorption, float_;  ///< of the charger, at 25 degC
    bool compensated;            ///< by temperature: lead
    bool lacks_sensor;           ///< lead that wants it, and a charger that cannot
    bool wake_wire;              ///< from the ignition
    bool charger = true;         ///< a DC-DC charger
    bool relay = false;      ///< in the charger's place: nothing of it is set, but a panel's regulator has its profile
    bool regulator = false;  ///< there is a panel's
};

/// The energy half of a plan.
struct EnergyPlan {
    /// With the fridge's guard as it is set; if that is not known, the worse of the usual settings. On the sun it is judged on
    /// dull days.
    TripResult trip;
    std::optional<DullDays> dull;           ///< empty: the sun plays no part, or nobody wants dull days
    std::optional<AssumedSky> assumed_sky;  ///< empty: the profile says it, or no panel counts
    Autonomy autonomy;                      ///< from a full battery; if the setting is not known, with the high one
    CutOffSetting guard;
    bool guard_known;                 ///< the profile says it for every fridge on the house battery, or there is none
    std::optional<TripResult> other;  ///< with the other usual setting
    std::optional<Autonomy> other_autonomy;
    std::optional<WornBattery> worn;      ///< where the profile gives no health
    std::optional<DrivingWorth> driving;  ///< empty when nobody drives
    Duration night_from, night_to;        ///< from the day's last drive to the next, or 24 hours on; by the clock
    Charge a_night;                       ///< what the loads take in that time of the hottest day
    ChargerPoint charger, idling;         ///< as usual, and with a hot engine that idles
    Current least_charger;                ///< what heat leaves of its output, while driving
    Warmth warmth;
    std::optional<FrostCure> frost;               ///< lithium that is hardly charged for its cold
    std::optional<WithoutSensor> without_sensor;  ///< lead in the cold
    Current most_drawn;                   ///< by all loads that are on together, at the end of the battery's rating
    std::vector<FridgeNeed> fridges;      ///< of both batteries
    std::optional<StarterLoads> starter;  ///< what hangs on the starter battery
    UntimedLoads untimed;                 ///< nobody said when they run
    std::vector<std::string> cool_first;  ///< fridges that must not be warm when the trip starts
    HouseBattery battery;
    std::optional<DaySun> first_day;     ///< with a place and a date
    std::optional<PanelPower> best_sun;  ///< the hour in which the panel gives most
    Ratio depth_limit;
    Settings settings;
    Findings findings;        ///< those of the plan that concern the trip, stops first
    Assumptions assumptions;  ///< those of the plan that the trip rests on
    int wiring_stops = 0;     ///< of the plan beside these: they concern cables and fuses alone

    /// Nothing essential goes off, the depth limit is kept, and nothing else stops the trip.
    [[nodiscard]] bool holds() const { return trip.holds() && !any_stops(findings); }
    [[nodiscard]] const TripResult& in_usual_sun() const { return dull ? dull->usual : trip; }
    /// The same without the dull days: what stops it beside an empty battery stops it then too.
    [[nodiscard]] bool holds_in_usual_sun() const;
    /// Everything hangs on the starter battery: how long the house battery lasts answers for nothing.
    [[nodiscard]] bool house_idle() const { return starter && trip.served.empty(); }
    [[nodiscard]] bool between_drives() const { return night_to - night_from < hours(24); }
};

EnergyPlan plan_energy(const System& system, const std::vector<LaidRun>& runs, const Tables& tables,
                       bool points = false);

/// What `autonomy` asks: from where, and from when.
struct AutonomyQuestion {
    std::optional<Ratio> from;      ///< state of charge
    std::optional<Voltage> rested;  ///< or a rested lead battery's voltage
    std::optional<Duration> at;     ///< clock
};

/// The answer with the setting of the fridge's guard that the profile gives, or the standard one.
struct AutonomyAnswer {
    Autonomy standard;
    std::optional<Autonomy> high;  ///< when the setting is not known, and makes a difference
    std::optional<DrivingWorth> driving;
    std::optional<WornBattery> worn;  ///< where the profile gives no health; from the same charge
    Ratio depth_limit;
    Findings stops = {};                       ///< that stand with the engine off too
    Findings not_charged = {};                 ///< why driving or the sun put nothing back
    Assumptions assumptions = {};              ///< that it rests on
    std::optional<StarterLoads> starter = {};  ///< what hangs on the starter battery
    bool house_idle = false;                   ///< and nothing on the house battery
    UntimedLoads untimed = {};                 ///< `bearable` is not looked for
    int wiring_stops = 0;                      ///< of the plan, which concern cables and fuses alone

    /// Nothing stops it, and there is something to run from.
    [[nodiscard]] bool holds() const { return stops.empty() && standard.lasts > Duration{}; }
};

/// Empty when the state of charge cannot be told from the voltage: lithium.
std::optional<AutonomyAnswer> answer_autonomy(const System& system, const std::vector<LaidRun>& runs,
                                              const AutonomyQuestion& question, const Tables& tables);

}  // namespace voltwright

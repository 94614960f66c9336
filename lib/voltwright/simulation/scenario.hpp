#pragma once

#include "voltwright/circuit/load.hpp"
#include "voltwright/energy/fridge.hpp"
#include "voltwright/energy/house_battery.hpp"
#include "voltwright/energy/sun.hpp"
#include "voltwright/simulation/charger_point.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// The battery that feeds a consumer.
enum class FedBy { house, starter };

/// A low-voltage cut-off: the voltages at its own terminals at which an appliance switches itself off and on again.
struct LowVoltageCutOff {
    Voltage cut_off;
    std::optional<Voltage> reconnect;  ///< empty: as soon as it would run above cut_off
};

/// Which of the two usual settings a fridge's cut-off is on, where the profile does not say.
enum class CutOffSetting { standard, high };

/// What a parked scenario repeats.
enum class ParkedDay {
    usual,    ///< all days of the trip are alike
    hottest,  ///< in full sun
    coldest,  ///< under cloud: the sun that warms a vehicle is not counted on
};
std::string_view show(ParkedDay day);

/// Something that draws current, and the cable that leads to it.
struct Consumer {
    std::string name;
    LoadLaw draw;     ///< while it runs
    Resistance path;  ///< loop from the battery's terminals, fuses and joints included
    bool essential = false;
    bool fridge = false;
    /// By CutOffSetting: the same twice where the profile says what it is.
    std::array<std::optional<LowVoltageCutOff>, 2> cut_offs = {};
    /// Nobody said when it runs: it draws nothing here, and may be on with all else.
    bool not_counted = false;
};

/// A part of the trip in which nothing outside changes.
struct Interval {
    Duration from;  ///< since the midnight before day 1
    Duration length;
    int day;  ///< from 1
    bool driving;
    Temperature air, battery;      ///< outside, and of the battery itself
    Ratio derating;                ///< share of the capacity that the cold takes away
    Current charger;               ///< what the DC-DC charger can give now
    Power sun;                     ///< what the panel's regulator can give now
    Voltage absorption, float_;    ///< compensated for the battery's temperature
    bool takes_charge;             ///< lithium beyond its limits takes none
    double cold_acceptance = 1.0;  ///< how many times its resistance in the warmth lead sets against being charged
    std::optional<Current> charge_limit = {};  ///< what the cold leaves of lithium's charging current
};

/// What the fridge takes, as far as the page explains it.
struct FridgeNeed {
    std::string name;
    Fridge fridge;
    Power draw;
    Temperature coolest, hottest;       ///< around it, over the trip
    Ratio least_duty, greatest_duty;    ///< over 100 %: it cannot hold its temperature
    Voltage counted_at;                 ///< for all ampere-hours here
    Charge a_day_cool, a_day_hot;       ///< on the coolest and the hottest day
    Duration overwhelmed;               ///< how long it needs more than it can do
    Temperature warms_to, may_warm_to;  ///< a usual filling meanwhile, and what is allowed of it
    FridgeDuty hottest_hour;
    std::optional<Restocking> most_put_in;  ///< what takes most of all that is put in at once
    Charge all_put_in;                      ///< over the trip, beside a_day_hot
    LidOpenings lid;                        ///< in the hottest hour's surroundings, as often as told or as is usual
    bool lid_counted;                       ///< within a_day_hot
    Restocking warm_start;                  ///< what a usual filling would take, put in warm
    bool starts_cold;                       ///< nothing is put in on the first day
    FedBy fed_by;
};

/// A trip, worked out as far as the battery plays no part in it: what is on when, how warm it is, what the charger could
/// give. Made once; the simulation only looks up.
struct Scenario {
    HouseBattery battery;
    ChargerPoint charger;
    Resistance output_path;  ///< loop of the cable from charger to battery, or of a relay's whole link
    Ratio depth_limit, start_soc;
    ParkedDay parked_on = ParkedDay::usual;
    std::vector<Consumer> consumers;
    std::vector<FridgeNeed> fridges;
    std::optional<DaySun> first_day;     ///< with a place and a date
    std::optional<PanelPower> best_sun;  ///< the hour in which the panel gives most
    std::vector<Interval> intervals;
    /// Share of each interval that each consumer has to run, consumers within intervals; nothing where it is off. Over 1
    /// for a fridge that has more heat to take out than its compressor can: what is left over, it owes.
    std::vector<Ratio> needs;

    [[nodiscard]] const Ratio* needs_of(std::size_t interval) const {
        return needs.data() + interval * consumers.size();
    }
};

}  // namespace voltwright

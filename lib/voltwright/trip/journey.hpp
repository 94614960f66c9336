#pragma once

#include "voltwright/energy/fridge.hpp"
#include "voltwright/energy/house_battery.hpp"
#include "voltwright/energy/sun.hpp"
#include "voltwright/vehicle/system.hpp"

#include <array>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace voltwright {

/// The voltages at its own terminals at which an appliance switches itself off and on again.
struct Guard {
    Voltage cut_out;
    std::optional<Voltage> cut_in;  ///< empty: as soon as it would run above cut_out
};

/// Which of the two usual settings a fridge's guard is on, where the profile does not say.
enum class GuardSetting { standard, high };

/// Something that draws current, and the cable that leads to it.
struct Consumer {
    std::string name;
    std::variant<Power, Current, Resistance> draw;  ///< while it runs
    Resistance path;                                ///< loop from the battery's terminals, fuses and joints included
    bool essential;
    bool fridge;
    /// By GuardSetting: the same twice where the profile says what it is.
    std::array<std::optional<Guard>, 2> guards;
};

/// A piece of the trip in which nothing outside changes.
struct Interval {
    Duration from;  ///< since the midnight before day 1
    Duration length;
    int day;  ///< from 1
    bool driving;
    Temperature air, battery;      ///< outside, and of the battery itself
    Ratio lost;                    ///< share of the capacity that the cold takes away
    Current charger;               ///< what the DC-DC charger can give now
    Power sun;                     ///< what the panel's regulator can give now
    Voltage absorption, float_;    ///< compensated for the battery's temperature
    bool takes_charge;             ///< lithium below its limit takes none
    double cold_acceptance = 1.0;  ///< how many times its resistance in the warmth lead sets against being charged
};

/// A day's weather and drives.
struct TripDay {
    Temperature low, high;
    Ratio clearness;
    std::vector<ClockWindow> drives;
};

/// The operating point of the charger behind the feed that the sizing chose, at the normal running voltage.
///
///     I_out = η·V_in·I_in/V_abs
///
/// V_in, I_in   at the charger's input, from the converter on its feed (W4); a charger at its input limit gives less
/// V_abs        absorption voltage
///
/// It does not start below `input_on`, unloaded, and stops below `input_off`, loaded: then it cycles.
struct ChargerPoint {
    Ratio efficiency;
    Voltage absorption;
    Voltage source;    ///< with the engine running as usual
    Voltage unloaded;  ///< at the input before it starts: the source's
    Voltage loaded;    ///< at the input at full output
    Current input;
    Voltage input_on, input_off;
    Current output;  ///< into the house battery's cable; nothing when it does not start or cycles

    [[nodiscard]] bool starts() const { return unloaded >= input_on; }
    [[nodiscard]] bool cycles() const { return starts() && loaded < input_off; }
};

/// A run with the resistance of the cable that was chosen for it.
struct LaidRun {
    const SystemRun* run;
    Resistance loop;     ///< warm, as at its normal current
    bool brings = true;  ///< so much power as is asked for at its end
};

/// The battery whose loads are looked at.
enum class FedBy { house, starter };

/// What the fridge takes, as far as the page explains it.
struct FridgeNeed {
    std::string name;
    Fridge fridge;
    Power draw;
    Temperature coolest, hottest;     ///< around it, over the trip
    Ratio least_duty, greatest_duty;  ///< over 100 %: it cannot hold its temperature
    Charge a_day_cool, a_day_hot;     ///< at 12 V, on the coolest and the hottest day
    Duration overwhelmed;             ///< how long it needs more than it can do
    FridgeDuty hottest_hour;
    std::optional<Restocking> most_put_in;  ///< what takes most of all that is put in at once
    FedBy fed_by = FedBy::house;
};

/// A trip, worked out as far as the battery plays no part in it: what is on when, how warm it is, what the charger could
/// give. Made once; the march then only looks up.
struct Journey {
    HouseBattery battery;
    ChargerPoint charger;
    Resistance output_path;  ///< loop of the cable from charger to battery
    Ratio depth_limit, start_soc;
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

/// The trip as the profile tells it. Like the two below it throws std::invalid_argument when a run of the system, other
/// than one between panel and battery, is not among `runs`.
Journey make_journey(const System& system, const std::vector<LaidRun>& runs, const Tables& tables,
                     FedBy fed_by = FedBy::house);

/// The trip's hottest day again and again from a clock time on, fridge already cold, engine and sun off.
Journey make_standing(const System& system, const std::vector<LaidRun>& runs, Duration clock, int days,
                      const Tables& tables, FedBy fed_by = FedBy::house);

/// The usual day's first drive alone, from its beginning: what an hour of driving is worth. Empty without a drive.
std::optional<Journey> make_one_drive(const System& system, const std::vector<LaidRun>& runs, Duration length,
                                      const Tables& tables);

/// When the usual day's last drive ends; 18:00 without one.
Duration evening_of(const System& system);

}  // namespace voltwright

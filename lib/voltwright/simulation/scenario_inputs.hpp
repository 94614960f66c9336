#pragma once

#include "voltwright/energy/battery_heater.hpp"
#include "voltwright/energy/charger.hpp"
#include "voltwright/simulation/scenario.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>
#include <string_view>
#include <vector>

namespace voltwright {

/// A run with the resistance of the cable that was chosen for it. It keeps what it tells: the plan may be dropped.
struct LaidRun {
    Place from, to;
    Resistance loop;     ///< warm, as at its normal current
    bool brings = true;  ///< so much power as is asked for at its end
};

/// How much of full sun heats what stands in the open, and what has come through to the air of a closed vehicle.
struct SunShares {
    Ratio open, closed;
};

/// A temperature of its own, or a place that the weather reaches.
struct Placement {
    std::optional<Temperature> fixed;
    const SurroundingsRow* place = nullptr;  ///< where `fixed` is empty

    [[nodiscard]] Temperature around(Temperature air, bool driving, const SunShares& sun) const;
};

/// When a compressor runs: by the heat that comes in.
struct FridgePlan {
    Fridge model;
    Power draw;
    Temperature inside;  ///< where things are put in
    HeldInside held;
    Placement where;
    Voltage counted_at;
    Volume volume;
    std::optional<int> opened = {};  ///< a day, beyond what the model holds already
    std::vector<Restock> restocks = {};
};

/// A consumer, and when it runs.
struct ScheduledConsumer {
    Consumer consumer;
    FedBy fed_by;
    std::vector<ClockWindow> hours = {};  ///< of what is no fridge
    Ratio duty = 1.0;                     ///< share of these hours
    std::optional<FridgePlan> fridge = {};
    bool warms_battery = false;  ///< runs as the battery's temperature asks for
};

/// How much of a clear sky's sun comes through on a day, as far as that is known.
struct DaySky {
    Ratio usual, least, most;  ///< by place; the same three where the profile says it
    bool told;                 ///< by the profile, of this very day
    Source source = {};        ///< where the profile says nothing
};

/// Which of them a scenario is made of. A day that the profile tells of is never duller than it says.
enum class Clearness { usual, least, most };
struct Sky {
    Clearness clearness = Clearness::usual;
    bool dull = false;  ///< every day as dull as one in ten
};

/// So many days of the trip from this one on.
struct DayRun {
    int first, count;

    [[nodiscard]] int last() const { return first + count - 1; }
    [[nodiscard]] bool holds(int day) const { return day >= first && day <= last(); }
};

/// A day's weather and drives.
struct DayConditions {
    Temperature low, high;
    Ratio clearness;  ///< under the sky that was chosen
    std::vector<ClockWindow> drives;
    DaySky sky;
    ClearnessOf clearness_of = ClearnessOf::mean_day;
};

/// Where and when on the Earth.
struct Site {
    Angle latitude;
    int first_day;  ///< of the year, day 1 of the trip

    [[nodiscard]] int day_of_year(int day) const { return (first_day + day - 2) % 365 + 1; }
};

/// What the charger does to the battery, beside its operating point.
struct Charging {
    Voltage absorption, float_;  ///< at 25 degC
    Compensation compensation;
    Temperature full_output_to;
    PerKelvin derate;
    Temperature off_above;
    Placement where;
};

/// What a relay does while the engine runs: the alternator's voltage behind the link's resistance.
struct RelayCharging {
    Voltage held;  ///< where the link begins
    Current most;  ///< what the alternator has to spare, or more than ever flows
};

/// What all scenarios of one plan have in common: battery, charger, consumers with their schedules, weather and drives.
/// Made once a plan; a scenario only sets its days.
struct ScenarioInputs {
    HouseBattery battery;
    Placement battery_where;
    Duration battery_time_constant;  ///< thermal
    Duration vehicle_time_constant;  ///< of the air in one that is closed
    Charge printed_capacity;         ///< of the whole bank, however worn
    std::optional<BatteryHeater> heater = {};
    Ratio depth_limit, start_soc;
    ChargerPoint charger;
    ChargerPoint idling;  ///< the same, with a hot engine that idles
    Charging charging;
    std::optional<RelayCharging> relay = {};  ///< in the charger's place; empty too where it never closes
    Resistance output_path;                   ///< loop of the cable from charger to battery, or of a relay's whole link
    std::vector<ScheduledConsumer> consumers;  ///< of both batteries
    std::optional<Site> site;
    std::optional<Panel> panel;
    std::vector<DayConditions> conditions;  ///< of days 0 … days + 1; the first and the last are the usual day
    const ChemistryRow* chemistry;
    const Tables* tables;

    [[nodiscard]] int days() const { return static_cast<int>(conditions.size()) - 2; }
    [[nodiscard]] const DayConditions& usual_day() const { return conditions.front(); }
    /// Of day 1 and of each after it; beyond the last the usual day.
    [[nodiscard]] const DayConditions& day(int number) const { return conditions[static_cast<std::size_t>(number)]; }
    [[nodiscard]] bool any_fed_by(FedBy battery) const;
};

/// Throws std::invalid_argument when a run of the system is not among `runs`: nothing is charged or fed through an ideal cable.
ScenarioInputs scenario_inputs(const System& system, const std::vector<LaidRun>& runs, const Tables& tables);

/// What a battery's own heater is called among the consumers.
inline constexpr std::string_view battery_heater_name = "battery heater";

/// Puts a heater into the battery, or another one: what it draws is a consumer of its own.
void set_heater(ScenarioInputs& inputs, Power power);
/// The same trip under another sky; on some of its days alone, where they are told.
ScenarioInputs under_sky(ScenarioInputs inputs, Sky sky, std::optional<DayRun> days = {});

/// When the usual day's last drive ends; 18:00 without one.
Duration evening_of(const ScenarioInputs& inputs);

/// From the end of the last drive of the usual day to the first of the next; without drives a whole day.
Duration night_length(const ScenarioInputs& inputs);

}  // namespace voltwright

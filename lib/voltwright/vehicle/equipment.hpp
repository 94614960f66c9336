#pragma once

#include "voltwright/energy/charger.hpp"
#include "voltwright/energy/internal_resistance.hpp"
#include "voltwright/profile/values.hpp"
#include "voltwright/sizing/choice.hpp"
#include "voltwright/tables/chemistries.hpp"
#include "voltwright/units/quantities.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// What a vehicle has and what its trip asks for, in plain amounts: a profile with every default filled in and every name
/// looked up. What a member is, and in which range, is told by the key of the same name (profile/sections).
namespace voltwright {

/// The vehicle's own battery and its alternator.
struct StarterBattery {
    InternalResistance internal;
    Alternator alternator;
    Voltage running, lowest_running;
    std::optional<Charge> capacity;
    std::optional<Current> spare_current;
    std::optional<Stud> stud;
    Somewhere where;
};

/// The house battery: one, or equal ones in parallel.
struct BatteryBank {
    InternalResistance internal;  ///< of all
    const ChemistryRow* chemistry;
    Charge capacity;  ///< of one
    int count;
    Ratio depth_limit;
    Current charge_limit, discharge_limit;  ///< of all
    Ratio start_soc, health;
    bool health_given;
    std::optional<Temperature> charge_above, charge_below;  ///< beyond these it takes no charge
    std::optional<Power> heater;                            ///< in lithium, of all
    std::optional<Stud> stud;
    Somewhere where;
};

/// The DC-DC charger between the two. Without one it has no output. Where a relay joins them it has no window either: `wake`, terminals and where
/// it stands are the relay's, and a panel's regulator goes by its voltages.
struct DcCharger {
    Current output;
    Ratio efficiency;
    Voltage input_on, input_off;
    Wake wake;
    std::optional<Current> input_limit;
    Voltage absorption, float_;
    Compensation compensation;  ///< none without a temperature sensor
    bool sensor_given;          ///< the profile says whether there is one
    Temperature full_output_to;
    PerKelvin derate;  ///< above it
    Temperature off_above;
    std::optional<Current> fuse_max;
    std::optional<Gauge> terminal;
    std::optional<Stud> stud;
    Somewhere where;
};

/// A relay in the charger's place: it joins the two batteries while the engine runs.
struct RelayCoupling {
    Voltage closes_at, opens_at;    ///< of one that goes by the voltage
    bool voltages_given;            ///< or usual ones
    std::optional<Current> rating;  ///< for long, printed on it
};

/// A panel on the roof, and its regulator.
struct SolarPanel {
    Power panel;
    Angle tilt, azimuth;
    Regulator regulator;
    Ratio shade;
    int series, parallel;
    Current short_circuit;  ///< of one panel, as are the two voltages
    Voltage most_power_voltage, open_circuit;
    bool plate_given;   ///< short_circuit by the profile
    Current output;     ///< of the regulator
    bool output_given;  ///< by the profile
    Ratio efficiency;   ///< of the regulator
    std::optional<Current> fuse_max;
    std::optional<Gauge> terminal;
    Somewhere where;  ///< the regulator

    /// Of all strings together.
    [[nodiscard]] Current all_short_circuit() const { return static_cast<double>(parallel) * short_circuit; }
    /// Of a string: what the cable from the panels has between its conductors in the sun.
    [[nodiscard]] Voltage string_voltage() const { return static_cast<double>(series) * most_power_voltage; }
    /// Of all strings together, where they give most.
    [[nodiscard]] Current most_power_current() const { return panel / string_voltage(); }
};

struct Inverter {
    Power output;
    Ratio efficiency;
    std::optional<Power> standby;
};

/// Something that draws current, other than a fridge.
struct LoadUnit {
    std::string name;
    std::variant<Power, Current, Resistance> draw;
    std::vector<ClockWindow> hours;
    Ratio duty;       ///< share of its hours that it really runs
    bool when_given;  ///< the profile says when or how much it runs; without that it may be on at any time
    std::optional<ShortTime> short_time;
    bool essential;
    bool through_inverter;
    std::optional<Voltage> cut_out, cut_in;
    std::optional<ShortCurrent> inrush;
    Somewhere where;
};

/// What a fridge was rated or measured to take with its surroundings held at one temperature.
struct RatedUse {
    Temperature around, inside;
    std::optional<Temperature> freezer;
    std::variant<Charge, Energy> a_day;
};

/// Warm things put into a fridge.
struct Restock {
    std::vector<int> days;  ///< of the trip, from 1
    ClockTime at;
    Mass mass;
    Temperature from;
};

struct FridgeUnit {
    std::string name;
    Power draw;
    std::vector<RatedUse> rated;
    Voltage counted_at;  ///< at which the ampere-hours of `rated` were counted
    std::optional<Volume> litres;
    Temperature inside;
    std::optional<Temperature> freezer;  ///< of a second zone
    Ratio freezer_share;                 ///< of its volume
    std::optional<int> opened;           ///< a day
    bool essential;
    std::optional<Voltage> cut_out, cut_in;
    Current fuse_max;
    std::optional<ShortCurrent> inrush;
    Somewhere where;
    std::vector<Restock> restock;
};

/// A day that is not like the others.
struct SpecialDay {
    std::vector<int> days;  ///< of the trip, from 1
    std::optional<std::vector<ClockWindow>> drives;
    std::optional<Temperature> low, high;
    std::optional<Ratio> clearness;
};

struct TripPlan {
    int days;
    Temperature low, high;
    std::vector<ClockWindow> drives;
    std::optional<CalendarDate> start;
    std::optional<Angle> latitude;
    std::optional<Ratio> clearness;  ///< without a place and a date its default
    bool clearness_given;
    int dull_days;  ///< in a row, on which a trip on the sun is judged
    std::vector<SpecialDay> special;
};

/// What a meter showed, as written down.
struct NotedReading {
    std::optional<std::vector<std::string>> across;
    std::optional<std::string> through;
    std::vector<std::string> with;
    Engine engine;
    bool charger_off;
    std::optional<Spread<Voltage>> voltage;
    std::optional<Spread<Current>> current;
};

/// How true the user's meter is.
struct MeterAccuracy {
    Accuracy<Voltage> voltage, millivolts;
    Accuracy<Current> current;
};

/// All of it.
struct Equipment {
    StarterBattery starter;
    BatteryBank house;
    DcCharger charger;
    std::optional<RelayCoupling> relay = {};
    bool charged_by_driving = true;  ///< by charger or relay; else a panel's regulator may have its voltages
    bool no_charger_told = false;    ///< the profile says that there is none
    std::optional<SolarPanel> solar;
    std::optional<Inverter> inverter;
    std::vector<LoadUnit> loads;
    std::vector<FridgeUnit> fridges;
    TripPlan trip;
    MeterAccuracy meter;
    std::vector<NotedReading> readings;

    [[nodiscard]] bool has_charger() const { return charged_by_driving && !relay; }
    /// Something charges to the voltages of `charger`.
    [[nodiscard]] bool holds_voltage() const { return has_charger() || solar.has_value(); }
};

/// By name; nullptr where there is none of that name.
const LoadUnit* find_load(const Equipment& has, std::string_view name);
const FridgeUnit* find_fridge(const Equipment& has, std::string_view name);

/// What the regulator brings to the battery in a sun like that of the standard conditions: with mppt the panels' power at the
/// voltage that it charges to, with pwm their current; never more than its output.
Current full_sun_current(const SolarPanel& solar, Voltage absorption);

/// The stud of the terminals at a place: at the batteries and the charger, where it is said.
std::optional<Stud> stud_at(const Equipment& has, const Place& place);

/// The highest voltage that the charger brings the house battery to, on the coldest night of the trip; through a relay the
/// alternator's.
CompensatedVoltage highest_absorption(const Equipment& has);

/// The coldest night and the hottest afternoon of the trip.
Temperature coldest_air(const TripPlan& trip);
Temperature hottest_air(const TripPlan& trip);

/// What a load asks of its run: of constant power most where it switches itself off, a resistance at the highest voltage of
/// what it hangs on.
RunLoad run_load(const LoadUnit& load, Voltage highest);

}  // namespace voltwright

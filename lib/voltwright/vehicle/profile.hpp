#pragma once

#include "voltwright/vehicle/values.hpp"

#include <string_view>

namespace voltwright {

/// What the profile says; empty where it says nothing. Defaults are filled in by complete(), and only there.
template <class T>
using Given = std::optional<T>;

// One struct a section of the profile, one member a key. What each key means, its range and its default stand in the
// key table (vehicle/keys.hpp), nowhere else.

struct TripKeys {
    Given<int> days;
    Given<Spread<Temperature>> low, high;
    Given<std::vector<ClockWindow>> drives;
    Given<CalendarDate> start;
    Given<Spread<Angle>> latitude;
    Given<Spread<Ratio>> clearness;
};

struct DayKeys {
    Given<TripDays> on;
    Given<std::vector<ClockWindow>> drives;
    Given<Spread<Temperature>> low, high;
    Given<Spread<Ratio>> clearness;
};

struct RulesKeys {
    Given<AmpacityBasis> ampacity;
    Given<SizesChoice> sizes;
    Given<std::vector<FuseChoice>> fuses;
    Given<Spread<Ratio>> feed_drop, output_drop, essential_drop, other_drop, fuse_use;
    Given<Spread<Area>> smallest;
};

struct StarterKeys {
    Given<Alternator> alternator;
    Given<Spread<Voltage>> running, lowest_running;
    Given<Spread<Charge>> capacity;
    Given<Spread<Current>> cold_cranking;
    Given<Spread<Resistance>> internal_resistance;
    Given<Spread<Current>> spare_current;
    Given<Stud> stud;
    Given<Somewhere> where;
};

struct ChargerKeys {
    Given<Spread<Current>> output;
    Given<Spread<Ratio>> efficiency;
    Given<Spread<Voltage>> input_on, input_off;
    Given<Wake> wake;
    Given<Spread<Current>> input_limit;
    Given<Spread<Voltage>> absorption, float_;
    Given<bool> temperature_sensor;
    Given<Spread<Temperature>> full_output_to;
    Given<Spread<Ratio>> derate;
    Given<Spread<Temperature>> off_above;
    Given<Spread<Current>> fuse_max;
    Given<Gauge> terminal;
    Given<Stud> stud;
    Given<Somewhere> where;
};

struct BatteryKeys {
    Given<Chemistry> chemistry;
    Given<Spread<Charge>> capacity;
    Given<int> count;
    Given<Spread<Ratio>> depth_limit;
    Given<Spread<Current>> charge_limit, discharge_limit;
    Given<Spread<Ratio>> start_soc, health;
    Given<Spread<Resistance>> internal_resistance;
    Given<Stud> stud;
    Given<Somewhere> where;
};

struct SolarKeys {
    Given<Spread<Power>> panel;
    Given<Spread<Angle>> tilt, azimuth;
    Given<Regulator> regulator;
    Given<Spread<Ratio>> shade;
};

struct InverterKeys {
    Given<Spread<Power>> output;
    Given<Spread<Ratio>> efficiency;
    Given<Spread<Power>> standby;
};

struct RunKeys {
    Given<std::string> to;
    Given<Spread<Length>> length;
    Given<std::string> from, name;
    Given<ReturnPath> return_;
    Given<Gauge> return_size;
    Given<Insulation> insulation;
    Given<Way> where;
    Given<int> loaded_in_bundle;
    Given<std::vector<JointChoice>> joints;
    Given<Gauge> size;
    Given<GivenFuses> fuse;
    Given<Have> have;
};

/// A short current on starting.
struct InrushKeys {
    Given<Spread<Current>> current;
    Given<Spread<Duration>> time;
};

struct LoadKeys {
    Given<std::string> name;
    Given<Draw> draw;
    Given<std::vector<ClockWindow>> hours;
    Given<Spread<Ratio>> duty;
    Given<bool> essential;
    Given<std::string> through;
    Given<Spread<Voltage>> cut_out, cut_in;
    Given<InrushKeys> inrush;
    Given<Somewhere> where;
};

/// What a fridge was measured or rated to take at one outside temperature.
struct RatedKeys {
    Given<Spread<Temperature>> around, inside;
    Given<DailyUse> a_day;
};

/// Warm things put into the fridge.
struct RestockKeys {
    Given<TripDays> on;
    Given<ClockTime> at;
    Given<Spread<Mass>> mass;
    Given<Spread<Temperature>> from;
};

struct FridgeKeys {
    Given<std::string> name;
    Given<Spread<Power>> draw;
    Given<std::vector<RatedKeys>> rated;
    Given<Spread<Volume>> litres;
    Given<Spread<Temperature>> inside;
    Given<bool> essential;
    Given<Spread<Voltage>> cut_out, cut_in;
    Given<Spread<Current>> fuse_max;
    Given<InrushKeys> inrush;
    Given<Somewhere> where;
    Given<std::vector<RestockKeys>> restock;
};

struct ReadingKeys {
    Given<std::vector<std::string>> across;
    Given<std::string> through;
    Given<std::vector<std::string>> with;
    Given<Engine> engine;
    Given<ChargerSwitch> charger;
    Given<Spread<Voltage>> voltage;
    Given<Spread<Current>> current;
    Given<std::string> when;
    Given<Spread<Charge>> counted;
    Given<Spread<Duration>> time, on, off, ran;
    Given<Spread<Voltage>> stopped;
};

struct MeterKeys {
    Given<Accuracy<Voltage>> voltage, millivolts;
    Given<Accuracy<Current>> current;
};

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

}  // namespace voltwright

#pragma once

#include "voltwright/provenance/source.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// What a kind of solar panel has of its own, whatever its make.
struct PanelRow {
    std::string_view panel;             ///< `crystalline`
    TemperatureRise nominal_rise;       ///< of the cells at 800 W/m² over the air, on an open rack
    TemperatureRise close_to_roof;      ///< added to it where no air passes behind
    PerKelvin temperature_coefficient;  ///< of its power; negative
    Ratio losses;                       ///< beside those by heat, in cables and in the regulator
    Ratio albedo;                       ///< share of the sun that the ground throws back
    Source source;
};

/// What is printed on the back of a panel, at standard conditions.
struct PanelPlateRow {
    std::string_view panel;
    Power power;
    Current most_power;                        ///< where it gives that
    Current short_circuit_low, short_circuit;  ///< of panels of that power the least and the most
    Voltage open_circuit_low, open_circuit;
    Source source;
};

/// How a regulator takes the panel's power.
struct RegulatorRow {
    std::string_view regulator;  ///< `mppt`, `pwm`
    Ratio efficiency;
    /// Share of its power that a cool panel gives at the battery's voltage; none if the regulator finds the best one.
    std::optional<Ratio> at_battery_voltage;
    Source source;
};

/// What reaches the ground of the sun outside the air, on the horizontal, in a month's mean: over weather stations between
/// two northern latitudes.
struct ClearnessIndexRow {
    Angle from, to;
    int month;  ///< 1 is January
    Ratio usual, least, most;
    Source source;
};

/// What a dull day brings in a month whose mean day has this clearness index: one day in ten brings less. Rising.
struct DullDayRow {
    Ratio clearness;
    Ratio low_tenth;  ///< of the mean day's sun
    Source source;
};

}  // namespace voltwright

#include "units.hpp"

#include <map>

namespace voltwright::generate_tables {

namespace {

const std::map<std::string_view, Unit> units = {
    {"A", {"Current", "amperes"}},
    {"V", {"Voltage", "volts"}},
    {"mV", {"Voltage", "millivolts"}},
    {"ohm", {"Resistance", "ohms"}},
    {"mohm", {"Resistance", "milliohms"}},
    {"ohm Ah", {"ResistanceTimesCharge", "ohm_ampere_hours"}},
    {"Ah", {"Charge", "ampere_hours"}},
    {"m", {"Length", "metres"}},
    {"mm", {"Length", "millimetres"}},
    {"in", {"Length", "inches"}},
    {"mm2", {"Area", "square_millimetres"}},
    {"cmil", {"Area", "circular_mils"}},
    {"degC", {"Temperature", "celsius"}},
    {"degF", {"Temperature", "fahrenheit"}},
    {"K", {"TemperatureRise", "kelvins"}},
    {"ohm/km", {"ResistancePerLength", "ohms_per_kilometre"}},
    {"ohm/kft", {"ResistancePerLength", "ohms_per_1000_feet"}},
    {"kg", {"Mass", "kilograms"}},
    {"g/m", {"MassPerLength", "grams_per_metre"}},
    {"lb/kft", {"MassPerLength", "pounds_per_1000_feet"}},
    {"mV/K", {"VoltagePerKelvin", "millivolts_per_kelvin"}},
    {"/K", {"PerKelvin", "per_kelvin"}},
    {"/h", {"ChargeRate", "per_hour"}},
    {"L", {"Volume", "litres"}},
    {"h", {"Duration", "hours"}},
    {"s", {"Duration", "seconds"}},
    {"W", {"Power", "watts"}},
    {"Wh", {"Energy", "watt_hours"}},
    {"W/K", {"ThermalConductance", "watts_per_kelvin"}},
    {"kJ/(kg K)", {"SpecificHeat", "kilojoules_per_kilogram_kelvin"}},
    {"kJ/kg", {"EnergyPerMass", "kilojoules_per_kilogram"}},
    {"%", {"Ratio", "percent"}},
    {"1", {"Ratio", "ratio"}},
    {"deg", {"Angle", "degrees"}},
};

}  // namespace

const Unit& unit_of(const std::string& file, const toml::node& at, const std::string& printed,
                    std::string_view dimension, std::string_view column) {
    const toml::source_position place = at.source().begin;
    if (printed.empty()) bad(file, place, quoted(column) + " needs a unit");
    const auto found = units.find(printed);
    if (found == units.end()) bad(file, place, quoted(printed) + " is no unit that the tables know");
    const Unit& unit = found->second;
    if (unit.dimension != dimension)
        bad(file, place,
            quoted(column) + " is of the kind " + std::string(dimension) + "; " + quoted(printed) +
                " is a unit of the kind " + std::string(unit.dimension));
    return unit;
}

}  // namespace voltwright::generate_tables

#include "voltwright/units/spellings.hpp"

#include "voltwright/units/scan.hpp"

#include <algorithm>
#include <iterator>

namespace voltwright {

namespace {

using D = Dimension;

constexpr double degree = 0.017453292519943295769;

// The two code points of Ω are U+03A9 and U+2126, those of µ U+00B5 and U+03BC.
constexpr Unit spellings[] = {
    {"A", D::current},
    {"mA", D::current, 1e-3},
    {"kA", D::current, 1e3},
    {"amp", D::current},
    {"amps", D::current},
    {"ampere", D::current},
    {"amperes", D::current},
    {"milliamp", D::current, 1e-3},
    {"milliamps", D::current, 1e-3},

    {"V", D::voltage},
    {"mV", D::voltage, 1e-3},
    {"volt", D::voltage},
    {"volts", D::voltage},
    {"millivolt", D::voltage, 1e-3},
    {"millivolts", D::voltage, 1e-3},

    {"mOhm", D::resistance, 1e-3},
    {"Ohm", D::resistance},
    {"uOhm", D::resistance, 1e-6},
    {"ohm", D::resistance},
    {"ohms", D::resistance},
    {"mohm", D::resistance, 1e-3},
    {"mohms", D::resistance, 1e-3},
    {"uohm", D::resistance, 1e-6},
    {"milliohm", D::resistance, 1e-3},
    {"milliohms", D::resistance, 1e-3},
    {"microohm", D::resistance, 1e-6},
    {"microohms", D::resistance, 1e-6},
    {"\u03a9", D::resistance},
    {"\u2126", D::resistance},
    {"m\u03a9", D::resistance, 1e-3},
    {"m\u2126", D::resistance, 1e-3},
    {"u\u03a9", D::resistance, 1e-6},
    {"u\u2126", D::resistance, 1e-6},
    {"\u00b5\u03a9", D::resistance, 1e-6},
    {"\u00b5\u2126", D::resistance, 1e-6},
    {"\u03bc\u03a9", D::resistance, 1e-6},
    {"\u03bc\u2126", D::resistance, 1e-6},
    {"\u00b5Ohm", D::resistance, 1e-6},
    {"\u03bcOhm", D::resistance, 1e-6},

    {"W", D::power},
    {"kW", D::power, 1e3},
    {"mW", D::power, 1e-3},
    {"watt", D::power},
    {"watts", D::power},
    {"kilowatt", D::power, 1e3},
    {"kilowatts", D::power, 1e3},

    {"Wh", D::energy, 3600.0},
    {"kWh", D::energy, 3.6e6},
    {"J", D::energy},
    {"kJ", D::energy, 1e3},
    {"MJ", D::energy, 1e6},
    {"W h", D::energy, 3600.0},
    {"kW h", D::energy, 3.6e6},
    {"watt hour", D::energy, 3600.0},
    {"watt hours", D::energy, 3600.0},
    {"watt-hour", D::energy, 3600.0},
    {"watt-hours", D::energy, 3600.0},
    {"joule", D::energy},
    {"joules", D::energy},

    {"Ah", D::charge, 3600.0},
    {"mAh", D::charge, 3.6},
    {"As", D::charge},
    {"A h", D::charge, 3600.0},
    {"A s", D::charge},
    {"amp hour", D::charge, 3600.0},
    {"amp hours", D::charge, 3600.0},
    {"amp-hour", D::charge, 3600.0},
    {"amp-hours", D::charge, 3600.0},
    {"ampere-hour", D::charge, 3600.0},
    {"ampere-hours", D::charge, 3600.0},

    {"m", D::length},
    {"cm", D::length, 1e-2},
    {"mm", D::length, 1e-3},
    {"km", D::length, 1e3},
    {"ft", D::length, 0.3048},
    {"foot", D::length, 0.3048},
    {"feet", D::length, 0.3048},
    {"in", D::length, 0.0254},
    {"inch", D::length, 0.0254},
    {"inches", D::length, 0.0254},
    {"metre", D::length},
    {"metres", D::length},
    {"meter", D::length},
    {"meters", D::length},
    {"centimetre", D::length, 1e-2},
    {"centimetres", D::length, 1e-2},
    {"centimeter", D::length, 1e-2},
    {"centimeters", D::length, 1e-2},
    {"millimetre", D::length, 1e-3},
    {"millimetres", D::length, 1e-3},
    {"millimeter", D::length, 1e-3},
    {"millimeters", D::length, 1e-3},
    {"kilometre", D::length, 1e3},
    {"kilometres", D::length, 1e3},
    {"kilometer", D::length, 1e3},
    {"kilometers", D::length, 1e3},

    {"mm2", D::area, 1e-6},
    {"mm\u00b2", D::area, 1e-6},
    {"mm^2", D::area, 1e-6},
    {"sq mm", D::area, 1e-6},
    {"sqmm", D::area, 1e-6},
    {"sq. mm", D::area, 1e-6},
    {"square mm", D::area, 1e-6},
    {"square millimetre", D::area, 1e-6},
    {"square millimetres", D::area, 1e-6},
    {"square millimeter", D::area, 1e-6},
    {"square millimeters", D::area, 1e-6},
    {"cm2", D::area, 1e-4},
    {"cm\u00b2", D::area, 1e-4},
    {"cm^2", D::area, 1e-4},
    {"m2", D::area},
    {"m\u00b2", D::area},
    {"m^2", D::area},

    {"L", D::volume, 1e-3},
    {"mL", D::volume, 1e-6},
    {"litre", D::volume, 1e-3},
    {"litres", D::volume, 1e-3},
    {"liter", D::volume, 1e-3},
    {"liters", D::volume, 1e-3},
    {"m3", D::volume},
    {"m\u00b3", D::volume},

    {"h", D::duration, 3600.0},
    {"min", D::duration, 60.0},
    {"s", D::duration},
    {"d", D::duration, 86400.0},
    {"sec", D::duration},
    {"secs", D::duration},
    {"second", D::duration},
    {"seconds", D::duration},
    {"ms", D::duration, 1e-3},
    {"mins", D::duration, 60.0},
    {"minute", D::duration, 60.0},
    {"minutes", D::duration, 60.0},
    {"hr", D::duration, 3600.0},
    {"hrs", D::duration, 3600.0},
    {"hour", D::duration, 3600.0},
    {"hours", D::duration, 3600.0},
    {"day", D::duration, 86400.0},
    {"days", D::duration, 86400.0},

    {"kg", D::mass},
    {"g", D::mass, 1e-3},
    {"lb", D::mass, 0.45359237},
    {"lbs", D::mass, 0.45359237},
    {"pound", D::mass, 0.45359237},
    {"pounds", D::mass, 0.45359237},
    {"gram", D::mass, 1e-3},
    {"grams", D::mass, 1e-3},
    {"kilogram", D::mass},
    {"kilograms", D::mass},

    {"deg", D::angle, degree},
    {"\u00b0", D::angle, degree},
    {"degree", D::angle, degree},
    {"degrees", D::angle, degree},
    {"rad", D::angle},
    {"radian", D::angle},
    {"radians", D::angle},

    {"%", D::ratio, 1.0, 100.0},
    {"percent", D::ratio, 1.0, 100.0},
    {"per cent", D::ratio, 1.0, 100.0},

    {"degC", D::temperature, 1.0, 1.0, 0.0, 273.15},
    {"\u00b0C", D::temperature, 1.0, 1.0, 0.0, 273.15},
    {"degF", D::temperature, 1.0, 1.8, 32.0, 273.15},
    {"\u00b0F", D::temperature, 1.0, 1.8, 32.0, 273.15},
    {"K", D::temperature},
    {"deg C", D::temperature, 1.0, 1.0, 0.0, 273.15},
    {"\u00b0 C", D::temperature, 1.0, 1.0, 0.0, 273.15},
    {"degrees C", D::temperature, 1.0, 1.0, 0.0, 273.15},
    {"celsius", D::temperature, 1.0, 1.0, 0.0, 273.15},
    {"degrees celsius", D::temperature, 1.0, 1.0, 0.0, 273.15},
    {"\u2103", D::temperature, 1.0, 1.0, 0.0, 273.15},
    {"deg F", D::temperature, 1.0, 1.8, 32.0, 273.15},
    {"\u00b0 F", D::temperature, 1.0, 1.8, 32.0, 273.15},
    {"degrees F", D::temperature, 1.0, 1.8, 32.0, 273.15},
    {"fahrenheit", D::temperature, 1.0, 1.8, 32.0, 273.15},
    {"degrees fahrenheit", D::temperature, 1.0, 1.8, 32.0, 273.15},
    {"\u2109", D::temperature, 1.0, 1.8, 32.0, 273.15},
    {"kelvin", D::temperature},
    {"kelvins", D::temperature},
};

template <class Same>
bool matches(std::string_view spelling, std::string_view text, Same same) {
    std::size_t at = 0;
    for (const char c : spelling) {
        if (c == ' ') {
            const std::size_t blanks = blanks_at(text, at);
            if (blanks == 0) return false;
            at += blanks;
        } else if (at < text.size() && same(c, text[at])) {
            ++at;
        } else {
            return false;
        }
    }
    return at == text.size();
}

constexpr bool same_letter(char a, char b) { return a == b; }
constexpr bool same_but_for_case(char a, char b) { return in_lower_case(a) == in_lower_case(b); }

constexpr bool begins_with_m(std::string_view text) { return !text.empty() && (text[0] == 'm' || text[0] == 'M'); }

/// "mV", "mOhm", "MJ", not "min": an m that another case would make a thousand million times as much. Nobody means
/// megametres, so lengths and areas are forgiven.
bool has_prefix_m(const Unit& unit) {
    if (!begins_with_m(unit.spelling) || unit.dimension == D::length || unit.dimension == D::area) return false;
    return std::any_of(std::begin(spellings), std::end(spellings), [&](const Unit& other) {
        return other.dimension == unit.dimension && other.spelling == unit.spelling.substr(1);
    });
}

}  // namespace

std::span<const Unit> unit_spellings() { return spellings; }

const Unit* find_unit(std::string_view text) {
    for (const Unit& unit : spellings)
        if (!text.empty() && unit.spelling[0] == text[0] && matches(unit.spelling, text, same_letter)) return &unit;
    for (const Unit& unit : spellings)
        if (matches(unit.spelling, text, same_but_for_case) && (unit.spelling[0] == text[0] || !has_prefix_m(unit)))
            return &unit;
    return nullptr;
}

const Unit* find_unit_but_for_its_m(std::string_view text) {
    if (!begins_with_m(text)) return nullptr;
    for (const Unit& unit : spellings)
        if (matches(unit.spelling, text, same_but_for_case) && has_prefix_m(unit)) return &unit;
    return nullptr;
}

const Unit& preferred_unit(Dimension dimension) {
    return *std::find_if(std::begin(spellings), std::end(spellings),
                         [&](const Unit& unit) { return unit.dimension == dimension; });
}

}  // namespace voltwright

#include "voltwright/report/numbers.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <stdexcept>

namespace voltwright {

namespace {

/// The ending of a key and how a measure becomes a number in that unit.
struct Ending {
    std::string_view ending;
    std::optional<double> (*number)(const Measure& measure);
};

template <class Q, double (*In)(Q)>
std::optional<double> in(const Measure& measure) {
    const Q* quantity = std::get_if<Q>(&measure);
    if (!quantity) return {};
    return In(*quantity);
}

constexpr Ending endings[] = {
    {"_V", &in<Voltage, in_volts>},
    {"_A", &in<Current, in_amperes>},
    {"_W", &in<Power, in_watts>},
    {"_Wh", &in<Energy, in_watt_hours>},
    {"_Ah", &in<Charge, in_ampere_hours>},
    {"_m", &in<Length, in_metres>},
    {"_mm2", &in<Area, in_square_millimetres>},
    {"_mohm", &in<Resistance, in_milliohms>},
    {"_C", &in<Temperature, in_celsius>},
    {"_percent", &in<Ratio, in_percent>},
    {"hours", &in<Duration, in_hours>},
    {"_kg", &in<Mass, in_kilograms>},
    {"_s", &in<Duration, in_seconds>},
    {"_K", &in<TemperatureRise, in_kelvins>},
    {"_A2s", &in<JouleIntegral, in_ampere_squared_seconds>},
};

}  // namespace

std::optional<double> number_for(std::string_view json_key, const Measure& measure) {
    for (const Ending& ending : endings) {
        if (json_key.size() < ending.ending.size() ||
            json_key.substr(json_key.size() - ending.ending.size()) != ending.ending)
            continue;
        const auto number = ending.number(measure);
        // Six decimals are a microvolt: beyond that the digits are arithmetic, not physics.
        if (number) return std::round(*number * 1e6) / 1e6;
    }
    return {};
}

std::string key_for(std::string_view name, const Measure& measure) {
    const auto fits = std::find_if(std::begin(endings), std::end(endings), [&](const Ending& ending) {
        return ending.ending.front() == '_' && ending.number(measure);
    });
    if (fits == std::end(endings)) throw std::logic_error("no key has a unit for " + std::string(name));
    return std::string(name) + std::string(fits->ending);
}

}  // namespace voltwright

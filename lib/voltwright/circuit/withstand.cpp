#include "voltwright/circuit/withstand.hpp"

#include <cmath>

namespace voltwright {

namespace {

constexpr double k_of_copper = 226.0;
constexpr TemperatureRise below_freezing = kelvins(234.5);
constexpr auto unit_of_k_squared = ampere_squared_seconds(1.0) / (square_millimetres(1.0) * square_millimetres(1.0));

}  // namespace

JouleIntegralPerArea2 copper_k_squared(Temperature start, Temperature limit) {
    const auto above = [](Temperature t) { return t - celsius(0) + below_freezing; };
    if (!(limit > start)) return {};
    return k_of_copper * k_of_copper * std::log(double(above(limit) / above(start))) * unit_of_k_squared;
}

Withstand withstand(Area area, Temperature start, Temperature limit, Current fault, Duration time) {
    return {area, start, limit, fault, time, fault * fault * time, copper_k_squared(start, limit) * area * area};
}

}  // namespace voltwright

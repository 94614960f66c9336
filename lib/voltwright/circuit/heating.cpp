#include "voltwright/circuit/heating.hpp"

#include "voltwright/circuit/withstand.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

constexpr Temperature melting_copper = celsius(1083);

/// Heating effect that lifts the conductor by its own temperature above −234.5 °C.
JouleIntegral heat_capacity(Area area) { return copper_heat * area * area; }

}  // namespace

std::optional<Duration> time_constant(const HeatedConductor& conductor) {
    if (!(conductor.ampacity > Current{})) return {};
    const Ratio share = (conductor.rated - conductor.reference) / above_no_resistance(conductor.rated);
    return heat_capacity(conductor.area) / (conductor.ampacity * conductor.ampacity) * share;
}

Temperature heated(const HeatedConductor& conductor, Temperature start, Current current, Duration time) {
    const auto tau = time_constant(conductor);
    const Ratio given_off = tau ? Ratio(time / *tau) : Ratio{};
    const double growth = current * current * time / heat_capacity(conductor.area) - given_off;
    const double gained = std::abs(growth) < 1e-9 ? 1.0 : std::expm1(growth) / growth;
    const TemperatureRise first = above_no_resistance(start), around = above_no_resistance(conductor.around);
    const TemperatureRise rise = (growth * first + given_off * around) * gained;
    return std::min(start + rise, melting_copper);
}

Temperature settled(const HeatedConductor& conductor, Current current) {
    const auto tau = time_constant(conductor);
    if (!tau) return current > Current{} ? melting_copper : conductor.around;
    const Ratio taken_up = current * current * *tau / heat_capacity(conductor.area);
    if (taken_up >= 1.0) return melting_copper;
    const TemperatureRise around = above_no_resistance(conductor.around);
    return std::min(conductor.around + around * double(taken_up / (1.0 - taken_up)), melting_copper);
}

Ratio short_time_factor(Duration time_constant, Duration on, Duration cycle) {
    const auto taken_up = [&](Duration time) { return -std::expm1(-double(time / time_constant)); };
    return std::sqrt(taken_up(cycle) / taken_up(on));
}

}  // namespace voltwright

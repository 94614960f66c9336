#include "voltwright/messages/meter_figures.hpp"

#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <cmath>

namespace voltwright {

namespace {

/// Below this a page speaks of millivolts.
constexpr double millivolts_below = 0.4;

/// One decimal for a figure that would else have one digit.
int decimals_below_ten(double count) { return count < 9.95 ? 1 : 0; }

std::string millivolt_figure(Voltage voltage) {
    const double count = in_millivolts(voltage);
    return fmt::format("{:.{}f} mV", count, decimals_below_ten(count));
}

std::string ampere_figure(Current current) {
    const double count = in_amperes(current);
    return fmt::format("{:.{}f} A", count, decimals_below_ten(count));
}

}  // namespace

std::string figure(const Measure& measure, MeterRange range) {
    if (const auto* voltage = std::get_if<Voltage>(&measure))
        return range == MeterRange::millivolts ? millivolt_figure(*voltage)
                                               : fmt::format("{:.2f} V", in_volts(*voltage));
    if (const auto* current = std::get_if<Current>(&measure)) return ampere_figure(*current);
    return show(measure);
}

std::pair<std::string, std::string> in_one_unit(const Measure& found, const Measure& limit) {
    if (const auto* current = std::get_if<Current>(&found)) {
        const auto words = [](Current one) { return fmt::format("{:.1f} A", in_amperes(one)); };
        return {words(*current), words(std::get<Current>(limit))};
    }
    const Voltage a = std::get<Voltage>(found), b = std::get<Voltage>(limit);
    const MeterRange range = a < volts(1) && b < volts(1) ? MeterRange::millivolts : MeterRange::volts;
    return {figure(found, range), figure(limit, range)};
}

std::string at_current(const std::optional<Current>& current) {
    return current && *current > Current{} ? " at " + ampere_figure(*current) : "";
}

std::string show(const MeterValue& value) {
    const double number = value.number(), size = std::abs(number);
    if (value.is_current()) return fmt::format("{:.{}f} A", number, decimals_below_ten(size));
    if (size < millivolts_below) return fmt::format("{:.{}f} mV", 1e3 * number, size < 0.00995 ? 1 : 0);
    return fmt::format("{:.2f} V", number);
}

std::string with_tolerance(const MeterValue& value, const MeterValue& tolerance) {
    const bool as_they_are = value.is_current() || value.size() < volts(millivolts_below);
    return show(value) + " ± " + (as_they_are ? show(tolerance) : fmt::format("{:.2f} V", tolerance.number()));
}

}  // namespace voltwright

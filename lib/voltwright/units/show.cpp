#include "voltwright/units/show.hpp"

#include "voltwright/units/spellings.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <initializer_list>
#include <limits>
#include <optional>
#include <span>
#include <variant>

namespace voltwright {

namespace {

constexpr std::string_view no_number = "?";

// ---- digits ---------------------------------------------------------------------------------------------------------

/// How far a number is rounded.
struct Rounding {
    int significant = 3;
    int most_decimals = 6;
    /// Digits before the point always stand: 125 h, not 130 h.
    bool all_before_point = false;
    /// A third digit is seldom known: 0.67 V.
    int significant_below_one = 2;
};

std::string without_trailing_zeros(std::string digits) {
    if (digits.find('.') != std::string::npos) {
        digits.erase(digits.find_last_not_of('0') + 1);
        if (digits.back() == '.') digits.pop_back();
    }
    return digits == "-0" ? "0" : digits;
}

template <class... How>
std::string printed(double x, How... how) {
    // The largest double has 309 digits before the point.
    std::array<char, 340> buffer{};
    return {buffer.data(), std::to_chars(buffer.data(), buffer.data() + buffer.size(), x, how...).ptr};
}

std::string rounded(double x, Rounding rounding) {
    if (x == 0.0) return "0";
    const int significant = std::abs(x) < 1.0 ? rounding.significant_below_one : rounding.significant;
    // "-1.23e+05": the power of ten after rounding, for 9.996 is 10.0.
    std::string digits = printed(x, std::chars_format::scientific, significant - 1);
    const std::size_t e = digits.find('e');
    int power = 0;
    std::from_chars(digits.data() + e + 2, digits.data() + digits.size(), power);
    if (digits[e + 1] == '-') power = -power;

    const int decimals = std::min(significant - 1 - power, rounding.most_decimals);
    if (decimals >= 0 || rounding.all_before_point)
        return without_trailing_zeros(printed(x, std::chars_format::fixed, std::max(decimals, 0)));
    digits.erase(e);
    digits.erase(std::remove(digits.begin(), digits.end(), '.'), digits.end());
    return digits.append(static_cast<std::size_t>(-decimals), '0');
}

double number_in(std::string_view digits) {
    double x = 0.0;
    std::from_chars(digits.data(), digits.data() + digits.size(), x);
    return x;
}

// ---- pages ----------------------------------------------------------------------------------------------------------

/// A unit that a page may use, and the least of SI, as it would be rounded in the next smaller unit, from which it is.
struct Scale {
    std::string_view unit;
    double size;
    double from = 0.0;
    Rounding rounding = {};
};

/// Scales from the smallest to the largest; nothing at all is said in the unit called `usual`.
std::string on_scales(double si, std::span<const Scale> scales, std::string_view usual) {
    if (!std::isfinite(si)) return std::string(no_number);
    for (std::size_t i = 0; i < scales.size(); ++i) {
        const Scale& scale = scales[i];
        const double in_scale = si / scale.size;
        if (!std::isfinite(in_scale)) continue;
        const bool last = i + 1 == scales.size();
        // No rounding brings it back under the next one.
        if (!last && std::abs(si) > 1.1 * scales[i + 1].from) continue;
        const std::string digits = rounded(in_scale, scale.rounding);
        // 9996 A is 10000 A to three digits, and 10000 A is said as 10 kA.
        if (!last && std::abs(number_in(digits)) * scale.size >= scales[i + 1].from * (1.0 - 1e-9)) continue;
        return digits + " " + std::string(digits == "0" ? usual : scale.unit);
    }
    return std::string(no_number);
}

std::string in_unit(double x, std::string_view unit, Rounding rounding = {}) {
    return std::isfinite(x) ? rounded(x, rounding) + " " + std::string(unit) : std::string(no_number);
}

constexpr Rounding tenths = {3, 1, true};
constexpr Rounding of_a_clock = {2, 1, true};
constexpr Rounding of_a_coefficient = {3, 6, false, 3};

constexpr Scale currents[] = {{"A", 1.0}, {"kA", 1e3, 1e4}};
constexpr Scale voltages[] = {{"mV", 1e-3}, {"V", 1.0, 0.01}};
constexpr Scale resistances[] = {{"mOhm", 1e-3}, {"Ohm", 1.0, 1.0}};
constexpr Scale powers[] = {{"W", 1.0}, {"kW", 1e3, 1e4}};
constexpr Scale energies[] = {{"Wh", 3600.0}, {"kWh", 3.6e6, 3.6e7}};
constexpr Scale charges[] = {{"Ah", 3600.0}};
constexpr Scale lengths[] = {{"mm", 1e-3}, {"m", 1.0, 1.0}};
constexpr Scale areas[] = {{"mm2", 1e-6}};
constexpr Scale volumes[] = {{"L", 1e-3}};
constexpr Scale durations[] = {{"s", 1.0}, {"min", 60.0, 60.0, of_a_clock}, {"h", 3600.0, 7200.0, of_a_clock}};
constexpr Scale masses[] = {{"g", 1e-3}, {"kg", 1.0, 1.0}};

}  // namespace

std::string show(Current q) { return on_scales(in_amperes(q), currents, "A"); }
std::string show(Voltage q) { return on_scales(in_volts(q), voltages, "V"); }
std::string show(Resistance q) { return on_scales(in_ohms(q), resistances, "mOhm"); }
std::string show(Power q) { return on_scales(in_watts(q), powers, "W"); }
std::string show(Energy q) { return on_scales(in_joules(q), energies, "Wh"); }
std::string show(Charge q) { return on_scales(q.value(), charges, "Ah"); }
std::string show(Length q) { return on_scales(in_metres(q), lengths, "m"); }
std::string show(Area q) { return on_scales(q.value(), areas, "mm2"); }
std::string show(Volume q) { return on_scales(q.value(), volumes, "L"); }
std::string show(Duration q) { return on_scales(in_seconds(q), durations, "s"); }
std::string show(Mass q) { return on_scales(in_kilograms(q), masses, "kg"); }
std::string show(Angle q) { return in_unit(in_degrees(q), "deg"); }
std::string show(Ratio q) { return in_unit(in_percent(q), "%"); }
std::string show(Temperature q) { return in_unit(in_celsius(q), "degC", tenths); }
std::string show(TemperatureRise q) { return in_unit(in_kelvins(q), "K", tenths); }
std::string show(ResistancePerLength q) { return in_unit(in_ohms_per_kilometre(q), "Ohm/km"); }
std::string show(MassPerLength q) { return in_unit(in_grams_per_metre(q), "g/m"); }
std::string show(PerKelvin q) { return in_unit(100.0 * q.value(), "%/K", of_a_coefficient); }
std::string show(VoltagePerKelvin q) { return in_unit(in_millivolts_per_kelvin(q), "mV/K"); }
std::string show(ResistanceTimesCharge q) { return in_unit(in_ohm_ampere_hours(q), "Ohm Ah"); }
std::string show(ChargeRate q) { return in_unit(in_per_hour(q), "C"); }
std::string show(JouleIntegral q) { return in_unit(in_ampere_squared_seconds(q), "A2s"); }
std::string show(ThermalConductance q) { return in_unit(in_watts_per_kelvin(q), "W/K"); }
std::string show(SpecificHeat q) { return in_unit(in_kilojoules_per_kilogram_kelvin(q), "kJ/(kg K)"); }
std::string show(Irradiance q) { return in_unit(in_watts_per_square_metre(q), "W/m2"); }
std::string show(Irradiation q) { return in_unit(in_megajoules_per_square_metre(q), "MJ/m2"); }
std::string show(const Measure& measure) {
    return std::visit([](const auto& q) { return show(q); }, measure);
}

// ---- profiles -------------------------------------------------------------------------------------------------------

namespace {

/// The shortest digits of this very double; no exponent where a fitter would not see one.
std::string in_full(double x) {
    const double size = std::abs(x);
    const bool plain = size == 0.0 || (size >= 1e-6 && size < 1e15);
    return printed(x + 0.0, plain ? std::chars_format::fixed : std::chars_format::scientific);
}

enum class Kind { value, difference };

double read_in(const Unit& unit, Kind kind, double x) {
    return kind == Kind::value ? unit.value_of(x) : unit.difference_of(x);
}

double said_in(const Unit& unit, Kind kind, double si) {
    return kind == Kind::value ? (si - unit.origin) * unit.over / unit.times + unit.zero : si * unit.over / unit.times;
}

/// The fewest digits that in this unit are that very number of SI. Nothing when no number is: multiplied by 3600, two
/// neighbours may skip one.
std::optional<std::string> digits_in(const Unit& unit, Kind kind, double si) {
    const double x = said_in(unit, kind, si);
    if (!std::isfinite(x)) return {};
    constexpr int most_digits = std::numeric_limits<double>::max_digits10;
    for (int digits = 1; digits <= most_digits; ++digits) {
        const double candidate = number_in(printed(x, std::chars_format::general, digits));
        if (read_in(unit, kind, candidate) == si) return in_full(candidate);
    }
    constexpr int neighbours = 4;
    double below = x, above = x;
    for (int i = 0; i < neighbours; ++i) {
        below = std::nextafter(below, -std::numeric_limits<double>::infinity());
        above = std::nextafter(above, std::numeric_limits<double>::infinity());
        for (const double candidate : {below, above})
            if (read_in(unit, kind, candidate) == si) return in_full(candidate);
    }
    return {};
}

struct Written {
    std::string digits;
    const Unit* unit;
};

/// In the first of these units, unless another is much shorter: 100 s, not 1.6666666666666667 min.
Written in_best_of(std::span<const Unit* const> units, Kind kind, double si) {
    constexpr std::size_t much = 4;
    std::optional<Written> best;
    for (const Unit* unit : units)
        if (auto digits = digits_in(*unit, kind, si))
            if (!best || digits->size() + much <= best->digits.size()) best = Written{std::move(*digits), unit};
    if (best) return *best;
    // Per cent only: no other unit is there, and the nearest lies within the last bit.
    return {in_full(said_in(*units.front(), kind, si)), units.front()};
}

/// A unit that a profile is written in, and the least of SI from which it is.
struct From {
    std::string_view unit;
    double least;
};

/// Largest first. Below the least of all it is the last; then, should one not do, any of the others.
std::string written(double value, double half_width, std::initializer_list<From> units, std::string_view usual) {
    if (!std::isfinite(value) || !std::isfinite(half_width)) return std::string(no_number);
    std::array<const Unit*, 4> order{};
    std::size_t count = 0;
    const auto add = [&](std::string_view spelling) {
        const Unit* unit = find_unit(spelling);
        if (std::find(order.begin(), order.begin() + count, unit) == order.begin() + count) order.at(count++) = unit;
    };
    const auto* fitting =
        std::find_if(units.begin(), units.end(), [&](const From& unit) { return std::abs(value) >= unit.least; });
    add(value == 0.0 ? usual : fitting == units.end() ? std::prev(units.end())->unit : fitting->unit);
    for (const From& unit : units) add(unit.unit);

    const Written whole = in_best_of({order.data(), count}, Kind::value, value);
    const std::string unit = " " + std::string(whole.unit->spelling);
    if (!(half_width > 0.0)) return whole.digits + unit;
    std::swap(*std::find(order.begin(), order.begin() + count, whole.unit), order.front());
    const Written half = in_best_of({order.data(), count}, Kind::difference, half_width);
    if (half.unit == whole.unit) return whole.digits + " +- " + half.digits + unit;
    return whole.digits + unit + " +- " + half.digits + " " + std::string(half.unit->spelling);
}

template <class Q>
std::string written(const Spread<Q>& spread, std::initializer_list<From> units, std::string_view usual) {
    return written(spread.value.value(), spread.half_width.value(), units, usual);
}

}  // namespace

std::string write(Spread<Current> s) { return written(s, {{"A", 1.0}, {"mA", 0.0}}, "A"); }
std::string write(Spread<Voltage> s) { return written(s, {{"V", 1.0}, {"mV", 0.0}}, "V"); }
std::string write(Spread<Resistance> s) { return written(s, {{"Ohm", 1.0}, {"mOhm", 0.0}}, "mOhm"); }
std::string write(Spread<Power> s) { return written(s, {{"W", 0.0}}, "W"); }
std::string write(Spread<Energy> s) { return written(s, {{"Wh", 3600.0}, {"J", 0.0}}, "Wh"); }
std::string write(Spread<Charge> s) { return written(s, {{"Ah", 0.0}, {"mAh", 0.0}, {"As", 0.0}}, "Ah"); }
std::string write(Spread<Length> s) { return written(s, {{"m", 1.0}, {"mm", 0.0}}, "m"); }
std::string write(Spread<Area> s) { return written(s, {{"mm2", 0.0}, {"m2", 0.0}}, "mm2"); }
std::string write(Spread<Volume> s) { return written(s, {{"L", 0.0}, {"m3", 0.0}}, "L"); }
std::string write(Spread<Duration> s) { return written(s, {{"h", 7200.0}, {"min", 120.0}, {"s", 0.0}}, "s"); }
std::string write(Spread<Mass> s) { return written(s, {{"kg", 1.0}, {"g", 0.0}}, "kg"); }
std::string write(Spread<Angle> s) { return written(s, {{"deg", 0.0}, {"rad", 0.0}}, "deg"); }
std::string write(Spread<Ratio> s) { return written(s, {{"%", 0.0}}, "%"); }
std::string write(Spread<Temperature> s) { return written(s, {{"degC", 0.0}, {"K", 0.0}}, "degC"); }
std::string write(Spread<TemperatureRise> s) {
    return written(in_kelvins(s.value), in_kelvins(s.half_width), {{"K", 0.0}}, "K");
}

}  // namespace voltwright

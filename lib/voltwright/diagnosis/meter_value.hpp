#pragma once

#include "voltwright/units/measure.hpp"

#include <cmath>
#include <stdexcept>
#include <variant>

namespace voltwright {

/// What a meter shows: the volts between its two leads, or the amperes within its clamp.
///
/// Two of them are compared, added and subtracted in one unit only: anything else throws std::logic_error.
class MeterValue {
public:
    MeterValue(Voltage voltage) : value_(voltage) {}
    MeterValue(Current current) : value_(current) {}

    [[nodiscard]] bool is_current() const { return std::holds_alternative<Current>(value_); }
    /// Throws std::logic_error for amperes.
    [[nodiscard]] Voltage voltage() const { return is_current() ? throw other_unit() : std::get<Voltage>(value_); }
    /// Throws std::logic_error for volts.
    [[nodiscard]] Current current() const { return is_current() ? std::get<Current>(value_) : throw other_unit(); }
    [[nodiscard]] Measure measure() const { return is_current() ? Measure{current()} : Measure{voltage()}; }

    /// In volts or amperes. A number leaves the typed world here, to be squared, divided or put into a matrix.
    [[nodiscard]] double number() const { return is_current() ? in_amperes(current()) : in_volts(voltage()); }
    /// As many volts as this is volts, or amperes as it is amperes.
    [[nodiscard]] MeterValue of_same_unit(double number) const {
        return is_current() ? MeterValue(amperes(number)) : MeterValue(volts(number));
    }
    [[nodiscard]] MeterValue size() const { return of_same_unit(std::abs(number())); }

    friend MeterValue operator+(const MeterValue& a, const MeterValue& b) { return a.with(a.number() + b.as(a)); }
    friend MeterValue operator-(const MeterValue& a, const MeterValue& b) { return a.with(a.number() - b.as(a)); }
    friend MeterValue operator-(const MeterValue& a) { return a.with(-a.number()); }
    friend MeterValue operator*(double times, const MeterValue& a) { return a.with(times * a.number()); }
    friend double operator/(const MeterValue& a, const MeterValue& b) { return a.number() / b.as(a); }
    friend bool operator<(const MeterValue& a, const MeterValue& b) { return a.number() < b.as(a); }
    friend bool operator>(const MeterValue& a, const MeterValue& b) { return b < a; }
    friend bool operator<=(const MeterValue& a, const MeterValue& b) { return a.number() <= b.as(a); }
    friend bool operator>=(const MeterValue& a, const MeterValue& b) { return b <= a; }

private:
    [[nodiscard]] static std::logic_error other_unit() {
        return std::logic_error("volts and amperes are not one unit");
    }
    [[nodiscard]] MeterValue with(double number) const { return of_same_unit(number); }
    [[nodiscard]] double as(const MeterValue& other) const {
        if (is_current() != other.is_current()) throw other_unit();
        return number();
    }

    std::variant<Voltage, Current> value_;
};

}  // namespace voltwright

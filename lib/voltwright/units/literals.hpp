#pragma once

#include "voltwright/units/quantities.hpp"

/// Quantities as one writes them: `25_A`, `6_m`, `1.2_mOhm`, `31_degC`, `80_percent`.
namespace voltwright::literals {

#define VOLTWRIGHT_LITERAL(suffix, maker)                                                       \
    constexpr auto operator""_##suffix(long double x) { return maker(static_cast<double>(x)); } \
    constexpr auto operator""_##suffix(unsigned long long x) { return maker(static_cast<double>(x)); }

VOLTWRIGHT_LITERAL(A, amperes)
VOLTWRIGHT_LITERAL(V, volts)
VOLTWRIGHT_LITERAL(mV, millivolts)
VOLTWRIGHT_LITERAL(Ohm, ohms)
VOLTWRIGHT_LITERAL(mOhm, milliohms)
VOLTWRIGHT_LITERAL(W, watts)
VOLTWRIGHT_LITERAL(Ah, ampere_hours)
VOLTWRIGHT_LITERAL(Wh, watt_hours)
VOLTWRIGHT_LITERAL(J, joules)
VOLTWRIGHT_LITERAL(m, metres)
VOLTWRIGHT_LITERAL(mm, millimetres)
VOLTWRIGHT_LITERAL(ft, feet)
VOLTWRIGHT_LITERAL(in, inches)
VOLTWRIGHT_LITERAL(mm2, square_millimetres)
VOLTWRIGHT_LITERAL(L, litres)
VOLTWRIGHT_LITERAL(s, seconds)
VOLTWRIGHT_LITERAL(min, minutes)
VOLTWRIGHT_LITERAL(h, hours)
VOLTWRIGHT_LITERAL(kg, kilograms)
VOLTWRIGHT_LITERAL(deg, degrees)
VOLTWRIGHT_LITERAL(percent, percent)
VOLTWRIGHT_LITERAL(degC, celsius)
VOLTWRIGHT_LITERAL(K, kelvins)

#undef VOLTWRIGHT_LITERAL

}  // namespace voltwright::literals

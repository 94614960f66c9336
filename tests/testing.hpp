#pragma once

/// What every test may use: doctest, quantities that print themselves in a failed check, and `near`.

#include "voltwright/units/show.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <concepts>
#include <cstdio>
#include <string>
#include <type_traits>

// doctest's own catches the name in a lambda, and clang++ 14 lets no lambda catch a name of a structured binding.
#undef CAPTURE
#define CAPTURE(x) VOLTWRIGHT_CAPTURE(DOCTEST_ANONYMOUS(captured_), #x, x)
#define VOLTWRIGHT_CAPTURE(name, words, x) \
    const auto& name = (x);                \
    DOCTEST_INFO(words " := ", name)

namespace voltwright::testing {

/// A value and how far from it an answer may lie; made by `near`.
template <class Q>
struct Near {
    Q expected;
    Difference<Q> tolerance;

    // Written so that an answer that is not a number is never near.
    friend bool operator==(const Q& found, const Near& near) {
        const Difference<Q> off = found < near.expected ? near.expected - found : found - near.expected;
        return off <= near.tolerance;
    }
};

inline std::string shortest(double x) {
    char text[32];
    std::snprintf(text, sizeof text, "%.10g", x);
    return text;
}

/// The quantity as a page shows it, and in full, because a page rounds what a failed check is about.
template <class Q>
std::string in_full(const Q& q) {
    if constexpr (std::floating_point<Q>)
        return shortest(q);
    else if constexpr (std::same_as<Q, Temperature>)
        return show(q) + " (" + shortest(in_celsius(q)) + ")";
    else if constexpr (requires { show(q); })
        return show(q) + " (" + shortest(q.value()) + " in SI)";
    else
        return shortest(q.value()) + " in SI";
}

}  // namespace voltwright::testing

namespace voltwright {

/// `CHECK(drop == near(volts(0.67), millivolts(5)))`. A temperature takes a rise as its tolerance:
/// `near(celsius(60.0), kelvins(0.5))`.
template <class Unit>
testing::Near<units::quantity<Unit>> near(units::quantity<Unit> expected, Difference<units::quantity<Unit>> tolerance) {
    return {expected, tolerance};
}

inline testing::Near<double> near(double expected, double tolerance) { return {expected, tolerance}; }

}  // namespace voltwright

namespace doctest {

template <class Unit>
struct StringMaker<boost::units::quantity<Unit>> {
    static String convert(const boost::units::quantity<Unit>& q) { return voltwright::testing::in_full(q).c_str(); }
};

template <class Q>
struct StringMaker<voltwright::Spread<Q>> {
    static String convert(const voltwright::Spread<Q>& spread) {
        const std::string text =
            voltwright::testing::in_full(spread.value) + " +- " + voltwright::testing::in_full(spread.half_width);
        return text.c_str();
    }
};

template <class Q>
struct StringMaker<voltwright::testing::Near<Q>> {
    static String convert(const voltwright::testing::Near<Q>& near) {
        const std::string text =
            voltwright::testing::in_full(near.expected) + " within " + voltwright::testing::in_full(near.tolerance);
        return text.c_str();
    }
};

}  // namespace doctest

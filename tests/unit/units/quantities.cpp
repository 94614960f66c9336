#include "testing.hpp"
#include "voltwright/units/literals.hpp"
#include "voltwright/units/measure.hpp"
#include "voltwright/units/spread.hpp"

#include <concepts>

using namespace voltwright;
using namespace voltwright::literals;

namespace {

template <class A, class B>
concept can_add = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept can_subtract = requires(A a, B b) {
    a - b;
};
template <class A, class B>
concept can_compare = requires(A a, B b) {
    a < b;
};
template <class A, class B>
concept can_equal = requires(A a, B b) {
    a == b;
};

}  // namespace

// What the compiler must refuse, where a static assertion can see it; the rest are the files of must_not_compile.
static_assert(can_add<Current, Current>);
static_assert(!can_add<Current, Voltage>);
static_assert(!can_add<Energy, Charge>);
static_assert(!can_add<Length, Area>);
static_assert(!can_add<Length, double>);
static_assert(!can_add<Resistance, ResistancePerLength>);
static_assert(can_subtract<Temperature, Temperature>);
static_assert(can_add<Temperature, TemperatureRise>);
static_assert(can_compare<Current, Current>);
static_assert(!can_compare<Current, int>);
static_assert(!can_compare<Current, Voltage>);
static_assert(!can_compare<Temperature, TemperatureRise>);
static_assert(!can_equal<Charge, Energy>);
static_assert(!can_equal<Volume, Area>);

static_assert(!std::convertible_to<double, Current>);
static_assert(!std::convertible_to<Current, double>);
static_assert(!std::convertible_to<Voltage, Current>);
static_assert(!std::convertible_to<Temperature, TemperatureRise>);
static_assert(!std::convertible_to<TemperatureRise, Temperature>);
static_assert(!std::convertible_to<Charge, Energy>);
static_assert(!std::convertible_to<Spread<Area>, Spread<Length>>);
static_assert(!std::convertible_to<Spread<Area>, Length>);
static_assert(std::convertible_to<Spread<Length>, Length>);

static_assert(std::same_as<Difference<Temperature>, TemperatureRise>);
static_assert(std::same_as<Difference<Current>, Current>);
static_assert(std::same_as<decltype(Temperature{} - Temperature{}), TemperatureRise>);
static_assert(std::same_as<decltype(Current{} * Resistance{}), Voltage>);
static_assert(std::same_as<decltype(Voltage{} * Current{}), Power>);
static_assert(std::same_as<decltype(Power{} * Duration{}), Energy>);
static_assert(std::same_as<decltype(Current{} * Duration{}), Charge>);
static_assert(std::same_as<decltype(ResistancePerLength{} * Length{}), Resistance>);
static_assert(std::same_as<decltype(Current{} / Charge{}), ChargeRate>);

TEST_CASE("a literal is a double, even when its number is whole") {
    static_assert(std::same_as<decltype(25_A), Current>);
    CHECK(25_A / 2.0 == amperes(12.5));
    CHECK(in_amperes(25_A / 2.0) == 12.5);
}

TEST_CASE("a length times a resistance per length is what a meter would show") {
    CHECK(ohms_per_kilometre(2.0) * 6_m == near(12_mOhm, milliohms(1e-12)));
    CHECK(12_V / 4_Ohm == 3_A);
    CHECK(120_Ah * 12_V == 1440_Wh);
    CHECK(31_degC - 25_degC == near(6_K, kelvins(1e-12)));
    CHECK(25_degC + 6_K == near(31_degC, kelvins(1e-12)));
    CHECK(24_A / 120_Ah == near(per_hour(0.2), per_hour(1e-15)));
}

TEST_CASE("the infinity of a quantity is infinite") { CHECK(std::numeric_limits<Current>::infinity() > 1e300 * 1_A); }

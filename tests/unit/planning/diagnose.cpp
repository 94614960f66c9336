#include "voltwright/planning/diagnose.hpp"
#include "journeys.hpp"
#include "testing.hpp"

#include <cmath>
#include <string>

/// Readings that no vehicle can show: an answer comes all the same.

namespace voltwright {

namespace {

Diagnosis of_readings(const std::string& readings) {
    const System system = testing::system_of_text(
        "[trip]\nlow = \"-33 degC\"\nhigh = \"41 degC\"\n[battery]\nchemistry = \"flooded\"\ncapacity = \"200 Ah\"\n"
        "[charger]\noutput = \"300 A\"\n[[run]]\nto = \"charger\"\nlength = \"100 m\"\n"
        "[[run]]\nto = \"clock\"\nlength = \"0.3 m\"\n[[run]]\nto = \"lamp\"\nlength = \"5 m\"\n"
        "[[fridge]]\ndraw = \"300 W\"\nrated = [{ around = \"25 degC\", a_day = \"21 Ah\" }]\n"
        "[[load]]\nname = \"heater\"\ndraw = \"500 W\"\n[[load]]\nname = \"fan\"\ndraw = \"1.4 A\"\n"
        "[[load]]\nname = \"clock\"\ndraw = \"0.001 W\"\n[[load]]\nname = \"lamp\"\ndraw = \"6 W\"\n"
        "[[load]]\nname = \"alarm\"\ndraw = \"0.001 W\"\n" +
        readings);
    return diagnose(system, make_plan(system));
}

bool holds_numbers(const Diagnosis& diagnosis) {
    for (const Suspicion& one : diagnosis.suspects)
        if ((one.extra && !std::isfinite(in_ohms(*one.extra))) ||
            (one.uncertainty && !std::isfinite(in_ohms(*one.uncertainty))) || !std::isfinite(one.odds))
            return false;
    for (const Compared& one : diagnosis.compared)
        if (!std::isfinite(one.expected) || !std::isfinite(one.tolerance) || !std::isfinite(one.explained))
            return false;
    return true;
}

}  // namespace

TEST_CASE("a clock of a milliwatt that is read to draw 25 A is answered, and pinned on no one joint") {
    const Diagnosis diagnosis = of_readings(
        "[meter]\ncurrent = \"0 % + 0 A\"\n[[reading]]\nacross = [\"clock +\", \"lamp +\"]\n"
        "with = [\"fan\", \"lamp\", \"clock\", \"alarm\", \"fridge\", \"heater\"]\nvoltage = \"1.1 V\"\n"
        "[[reading]]\nthrough = \"clock\"\nwith = [\"lamp\", \"clock\", \"alarm\"]\ncurrent = \"25 A\"\n");
    CHECK(diagnosis.verdict != Verdict::nothing_wrong);
    CHECK(diagnosis.verdict != Verdict::found);
    CHECK(holds_numbers(diagnosis));
}

TEST_CASE("a meter that claims to be without error is not believed") {
    const Diagnosis diagnosis = of_readings(
        "[meter]\nvoltage = \"0 % + 0 V\"\nmillivolts = \"0 % + 0 V\"\ncurrent = \"0 % + 0 A\"\n"
        "[[reading]]\nthrough = \"lamp\"\nwith = [\"lamp\"]\ncurrent = \"0.5 A\"\n"
        "[[reading]]\nacross = [\"battery +\", \"lamp +\"]\nwith = [\"lamp\"]\nvoltage = \"0.4 V\"\n");
    CHECK(diagnosis.verdict != Verdict::nothing_wrong);
    CHECK(holds_numbers(diagnosis));
    REQUIRE(diagnosis.compared.size() == 2);
    for (const Compared& one : diagnosis.compared) CHECK(one.tolerance > 0.0);
    if (diagnosis.next) {
        REQUIRE(diagnosis.next->tolerance);
        CHECK(std::visit([](auto number) { return number.value() > 0.0; }, *diagnosis.next->tolerance));
    }
}

}  // namespace voltwright

#include "journeys.hpp"
#include "testing.hpp"

#include "voltwright/planning/autonomy_question.hpp"
#include "voltwright/units/literals.hpp"

#include <limits>
#include <string>

/// Which questions of autonomy can be answered at all.

namespace voltwright {

using namespace literals;

namespace {

System with_battery(const std::string& chemistry) {
    return testing::system_of_text("[trip]\nlow = \"10 degC\"\nhigh = \"30 degC\"\n[battery]\nchemistry = \"" +
                                   chemistry +
                                   "\"\ncapacity = \"100 Ah\"\n[charger]\noutput = \"25 A\"\n"
                                   "[[run]]\nto = \"charger\"\nlength = \"5 m\"\n");
}

AutonomyQuestion from(Ratio soc) {
    AutonomyQuestion question{};
    question.from = soc;
    return question;
}

AutonomyQuestion rested(Voltage voltage) {
    AutonomyQuestion question{};
    question.rested = voltage;
    return question;
}

}  // namespace

TEST_CASE("a state of charge is above nothing and at most the whole") {
    CHECK_FALSE(fault_of(AutonomyQuestion{}));
    CHECK_FALSE(fault_of(from(percent(100))));
    CHECK_FALSE(fault_of(from(percent(0.1))));
    for (const Ratio& wrong : {percent(0), percent(-1), percent(100.1), ratio(std::numeric_limits<double>::quiet_NaN())})
        CHECK(fault_of(from(wrong)) == AutonomyFault::no_state_of_charge);
}

TEST_CASE("a rested battery reads 10 V to 14 V") {
    CHECK_FALSE(fault_of(rested(10_V)));
    CHECK_FALSE(fault_of(rested(14_V)));
    for (const Voltage& wrong : {volts(9.9), volts(14.1), volts(std::numeric_limits<double>::quiet_NaN())})
        CHECK(fault_of(rested(wrong)) == AutonomyFault::not_at_rest);
}

TEST_CASE("a lead battery that reads far above a full one is being charged; of lithium nobody can tell") {
    const AutonomyQuestion question = rested(volts(13.6));
    CHECK(fault_of(question, with_battery("agm")) == AutonomyFault::charging);
    CHECK_FALSE(fault_of(rested(volts(12.4)), with_battery("agm")));
    CHECK_FALSE(fault_of(question, with_battery("lfp")));
    CHECK(fault_of(rested(9_V), with_battery("agm")) == AutonomyFault::not_at_rest);
}

}  // namespace voltwright

#include "journeys.hpp"
#include "voltwright/messages/assumptions.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"

#include <algorithm>
#include <string>
#include <string_view>

/// Where a battery stands: what heat and gas do there. Limits: a maker's sheets of small lithium packs, charge 0 to 45 degC,
/// discharge to 60 degC (read).

namespace voltwright {

namespace {

Plan plan_of(const std::string& battery, const std::string& high = "31 degC", const std::string& more = {}) {
    return make_plan(testing::system_of_text("[trip]\ndays = 2\nlow = \"14 degC\"\nhigh = \"" + high +
                                             "\"\ndrives = \"09:00-13:00\"\n[battery]\ncapacity = \"100 Ah\"\n" + battery +
                                             "[charger]\noutput = \"20 A\"\n[[run]]\nto = \"charger\"\nlength = \"3 m\"\n"
                                             "[[run]]\nto = \"battery\"\nlength = \"1 m\"\n"
                                             "[[load]]\nname = \"lamp\"\ndraw = \"60 W\"\nhours = \"18:00-23:00\"\n" +
                                             more));
}

const Finding* found(const Plan& plan, std::string_view code) {
    const auto one = std::find_if(plan.findings.begin(), plan.findings.end(),
                                  [&](const Finding& finding) { return show(finding.code) == code; });
    return one == plan.findings.end() ? nullptr : &*one;
}

bool told_hot(const Plan& plan, std::string_view about) {
    return std::any_of(plan.assumptions.begin(), plan.assumptions.end(), [&](const Assumption& one) {
        return one.code == AssumptionCode::hot_place && show(one.about) == about;
    });
}

}  // namespace

TEST_CASE("lithium at 48 degC takes no charge, at 44 degC it does, and a sheet may allow more") {
    const Plan hot = plan_of("chemistry = \"lfp\"\nwhere = \"48 degC\"\n");
    REQUIRE(found(hot, "too-hot-to-charge"));
    CHECK(found(hot, "too-hot-to-charge")->level == Level::warn);
    CHECK(hot.energy.trip.ledger.from_charger < ampere_hours(1.0));
    CHECK_FALSE(found(hot, "too-cold-to-charge"));
    const Plan warm = plan_of("chemistry = \"lfp\"\nwhere = \"44 degC\"\n");
    CHECK_FALSE(found(warm, "too-hot-to-charge"));
    CHECK(warm.energy.trip.ledger.from_charger > ampere_hours(20.0));
    const Plan heated = plan_of("chemistry = \"lfp\"\nwhere = \"48 degC\"\ncharge_below = \"55 degC\"\n");
    CHECK_FALSE(found(heated, "too-hot-to-charge"));
    CHECK(heated.energy.trip.ledger.from_charger > ampere_hours(20.0));
}

TEST_CASE("a pack with a heater is charged below freezing where its sheet says so") {
    const std::string cold = "chemistry = \"lfp\"\nwhere = \"-8 degC\"\n";
    CHECK(found(plan_of(cold), "too-cold-to-charge"));
    CHECK_FALSE(found(plan_of(cold + "charge_above = \"-20 degC\"\n"), "too-cold-to-charge"));
}

TEST_CASE("lithium above 60 degC is a stop, of lead its temperature is told") {
    const Plan lithium = plan_of("chemistry = \"lfp\"\nwhere = \"80 degC\"\n");
    REQUIRE(found(lithium, "battery-too-hot"));
    CHECK(found(lithium, "battery-too-hot")->level == Level::stop);
    CHECK_FALSE(lithium.energy.holds());
    // Said once: that it takes no charge either goes without saying.
    CHECK_FALSE(found(lithium, "too-hot-to-charge"));
    const Plan lead = plan_of("chemistry = \"agm\"\nwhere = \"80 degC\"\n");
    CHECK_FALSE(found(lead, "battery-too-hot"));
    CHECK(told_hot(lead, "battery"));
}

TEST_CASE("under the bonnet of a hot day battery, charger and fridge are told how hot it gets") {
    const Plan plan = plan_of("chemistry = \"agm\"\nwhere = \"engine bay\"\n", "40 degC",
                              "[[fridge]]\ndraw = \"45 W\"\nwhere = \"engine bay\"\n"
                              "rated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n");
    CHECK(told_hot(plan, "battery"));
    CHECK(told_hot(plan, "fridge"));
    CHECK_FALSE(told_hot(plan_of("chemistry = \"agm\"\n"), "battery"));
}

TEST_CASE("flooded lead in the cabin is warned of its gas, AGM there and flooded under a canopy are not") {
    REQUIRE(found(plan_of("chemistry = \"flooded\"\nwhere = \"cabin\"\n"), "gas-inside"));
    CHECK(found(plan_of("chemistry = \"flooded\"\nwhere = \"cabin\"\n"), "gas-inside")->level == Level::warn);
    CHECK_FALSE(found(plan_of("chemistry = \"agm\"\nwhere = \"cabin\"\n"), "gas-inside"));
    CHECK_FALSE(found(plan_of("chemistry = \"flooded\"\nwhere = \"canopy\"\n"), "gas-inside"));
}

}  // namespace voltwright

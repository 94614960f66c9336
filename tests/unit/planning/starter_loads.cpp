// What hangs on the starter battery: counted, held against what the engine needs, and told.
// That a start wants half of the charge left is common practice, no source; 11.3 and 12.5 V for a battery that also
// starts the engine is what a fridge's manual prints.

#include "voltwright/planning/starter_loads.hpp"
#include "voltwright/messages/findings.hpp"

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/report/plan_text.hpp"
#include "voltwright/units/literals.hpp"

#include <algorithm>

using namespace voltwright;
using namespace voltwright::literals;
using namespace voltwright::testing;

namespace {

std::optional<Finding> found(const Findings& findings, std::string_view code) {
    const auto one = std::find_if(findings.begin(), findings.end(),
                                  [&](const Finding& finding) { return show(finding.code) == code; });
    return one == findings.end() ? std::nullopt : std::optional(*one);
}

/// Three days with a drive each morning; `starter` are lines of its [starter], `more` what hangs where.
std::string with(const std::string& more, const std::string& starter = "capacity = \"70 Ah\"\n",
                 const std::string& drives = "drives = \"09:00-11:00\"\n") {
    return "[trip]\ndays = 3\nlow = \"18 degC\"\nhigh = \"34 degC\"\n" + drives + "[starter]\n" + starter + R"(
[battery]
chemistry = "agm"
capacity = "100 Ah"
[charger]
output = "25 A"
[[run]]
to = "charger"
length = "5 m"
)" + more;
}

std::string fridge(const std::string& from, const std::string& keys = {}) {
    return "[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n" + keys +
           "[[run]]\nfrom = \"" + from + "\"\nto = \"fridge\"\nlength = \"3 m\"\n";
}

/// Two watts all day: an alarm.
const std::string alarm_on_starter =
    "[[load]]\nname = \"alarm\"\ndraw = \"2 W\"\n[[run]]\nfrom = \"starter\"\nto = \"alarm\"\nlength = \"2 m\"\n";

Plan plan_of_text(const std::string& toml) { return make_plan(system_of_text(toml)); }

}  // namespace

TEST_CASE("a fridge on the starter battery stops plan, trip and autonomy, and the house battery is the cure") {
    const std::string without_drives = with(fridge("starter"), "capacity = \"70 Ah\"\n", "");
    const Plan plan = plan_of_text(without_drives);
    const auto drained = found(plan.findings, "starter-drained");
    REQUIRE(drained);
    CHECK(drained->level == Level::stop);
    CHECK(drained->about == FindingSubject{FindingSubject::Kind::load, {"fridge"}});
    CHECK(remedy_in_words(*drained).find("house battery") != std::string::npos);
    CHECK_FALSE(plan.holds());
    CHECK_FALSE(plan.energy.holds());
    const auto answer = autonomy_of(system_of_text(without_drives), {});
    REQUIRE(answer);
    CHECK_FALSE(answer->holds());
    CHECK(answer->house_idle);
    // The cure, tried: the stop is gone, and the house battery is told to feed it.
    const Plan cured = plan_of_text(with(fridge("battery"), "capacity = \"70 Ah\"\n", ""));
    CHECK_FALSE(cured.energy.starter);
    CHECK_FALSE(found(cured.findings, "starter-drained"));
    REQUIRE(cured.energy.trip.served.size() == 1);
}

TEST_CASE("ampere-hours and hours on the starter battery") {
    // 3.6 W at 12 V, 0.3 A: 22 h from the end of one drive to the next are 6.6 Ah; 35 Ah last 116 2/3 h.
    const std::string lamp =
        "[[load]]\nname = \"lamp\"\ndraw = \"0.3 A\"\n[[run]]\nfrom = \"starter\"\nto = \"lamp\"\nlength = \"2 m\"\n";
    const Plan plan = plan_of_text(with(lamp));
    REQUIRE(plan.energy.starter);
    const StarterLoads& loads = *plan.energy.starter;
    CHECK(loads.stand == near(22_h, seconds(1)));
    CHECK(loads.taken == near(ampere_hours(6.6), ampere_hours(0.001)));
    CHECK(loads.allowed == near(ampere_hours(35.0), ampere_hours(0.001)));
    REQUIRE(loads.lasts);
    CHECK(*loads.lasts == near(hours(116.0 + 2.0 / 3.0), minutes(1)));
    CHECK(loads.holds());
    CHECK_FALSE(loads.capacity_assumed);
    // A computer that saves fuel leaves room in the battery: from 80 down to 50 % of it.
    const Plan smart = plan_of_text(with(lamp, "capacity = \"70 Ah\"\nalternator = \"smart\"\n"));
    CHECK(smart.energy.starter->allowed == near(ampere_hours(21.0), ampere_hours(0.001)));
    // Nobody drives: the whole trip.
    CHECK(plan_of_text(with(lamp, "", "")).energy.starter->stand == near(72_h, seconds(1)));
}

TEST_CASE("a small alarm between daily drives asks for nothing, and its hours are told") {
    const Plan plan = plan_of_text(with(alarm_on_starter + fridge("battery")));
    CHECK_FALSE(found(plan.findings, "starter-load"));
    REQUIRE(plan.energy.starter->lasts);
    CHECK(*plan.energy.starter->lasts > 2.0 * plan.energy.starter->stand);
    CHECK(plan_page(plan, {}).find("from the starter battery") != std::string::npos);
    CHECK_FALSE(found(plan.findings, "starter-drained"));
    CHECK(plan.holds());
    // The fridge on the house battery is none of it.
    CHECK(plan.energy.starter->names() == "alarm");
    CHECK(plan.energy.trip.served.size() == 1);
    CHECK_FALSE(plan.energy.house_idle());
}

TEST_CASE("what one drive left out would drain is a warning") {
    const auto told = found(plan_of_text(with(fridge("starter"))).findings, "starter-load");
    REQUIRE(told);
    CHECK(told->level == Level::warn);
}

TEST_CASE("what was not given of the starter battery is assumed small, and said where a load rests on it") {
    // A fridge comes near the limit: the capacity decides.
    const auto said = found(plan_of_text(with(fridge("starter"), "")).findings, "starter-capacity-assumed");
    REQUIRE(said);
    CHECK(said->level == Level::warn);
    // An alarm does not.
    const Plan alarm = plan_of_text(with(alarm_on_starter, ""));
    CHECK_FALSE(found(alarm.findings, "starter-capacity-assumed"));
    CHECK(std::any_of(alarm.assumptions.begin(), alarm.assumptions.end(),
                      [](const Assumption& one) { return one.code == AssumptionCode::starter_capacity_assumed; }));
    CHECK_FALSE(found(plan_of_text(with(alarm_on_starter)).findings, "starter-capacity-assumed"));
    CHECK_FALSE(found(plan_of_text(with(fridge("battery"), "")).findings, "starter-capacity-assumed"));
}

TEST_CASE("behind a fuse block or an inverter it is the starter battery all the same") {
    const std::string block = "[[run]]\nfrom = \"starter\"\nto = \"block\"\nlength = \"2 m\"\n";
    const Plan behind = plan_of_text(with(block + fridge("block"), "", ""));
    REQUIRE(found(behind.findings, "starter-drained"));
    CHECK(behind.energy.starter->names() == "fridge");

    const Plan inverted = plan_of_text(
        with("[inverter]\noutput = \"300 W\"\n[[load]]\nname = \"laptop\"\ndraw = \"60 W\"\nthrough = \"inverter\"\n"
             "[[run]]\nfrom = \"starter\"\nto = \"inverter\"\nlength = \"1 m\"\n"));
    REQUIRE(found(inverted.findings, "starter-drained"));
    CHECK(inverted.energy.starter->names() == "laptop");
}

TEST_CASE("the guard of a fridge on the starter battery is the one made for it") {
    const Plan plan = plan_of_text(with(fridge("starter")));
    CHECK_FALSE(plan.energy.settings.guard);
    REQUIRE(plan.energy.settings.starter_guards.size() == 1);
    CHECK(plan.energy.settings.starter_guards[0].set.cut_off == near(volts(11.3), volts(1e-9)));
    REQUIRE(plan.energy.settings.starter_guards[0].set.reconnect);
    CHECK(*plan.energy.settings.starter_guards[0].set.reconnect == near(volts(12.5), volts(1e-9)));
    // 45 W at 11.3 V, and no longer at the low setting's volts.
    const auto run = std::find_if(plan.runs.begin(), plan.runs.end(),
                                  [](const RunPlan& one) { return one.task.to.name == "fridge"; });
    REQUIRE(run != plan.runs.end());
    CHECK(std::get<PowerLoad>(run->task.load).cut_out == near(volts(11.3), volts(1e-9)));

    const Plan low = plan_of_text(with(fridge("starter", "cut_out = \"10.4 V\"\ncut_in = \"11.7 V\"\n")));
    CHECK(found(low.findings, "starter-guard-low"));
    CHECK_FALSE(found(plan_of_text(with(fridge("battery", "cut_out = \"10.4 V\"\ncut_in = \"11.7 V\"\n"))).findings,
                      "starter-guard-low"));
}

TEST_CASE("a load that switches itself off above half spares the engine") {
    const std::string saver =
        "[[load]]\nname = \"radio\"\ndraw = \"30 W\"\ncut_out = \"12.4 V\"\ncut_in = \"12.6 V\"\nessential = false\n"
        "[[run]]\nfrom = \"starter\"\nto = \"radio\"\nlength = \"2 m\"\n";
    const auto told = found(plan_of_text(with(saver)).findings, "starter-drained");
    REQUIRE(told);
    CHECK(told->level == Level::warn);
}

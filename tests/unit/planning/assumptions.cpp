#include "voltwright/messages/assumptions.hpp"

#include "journeys.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"

#include <algorithm>
#include <string>
#include <string_view>

/// What a plan rests on where nothing is to be done: a line each, and the same of several runs once.

namespace voltwright {

namespace {

Plan plan_of(const std::string& more, const std::string& feed = {}, const std::string& starter = {},
             const std::string& rules = {}) {
    return make_plan(testing::system_of_text(
        "[trip]\nlow = \"10 degC\"\nhigh = \"31 degC\"\ndrives = \"08:00-10:00\"\n[starter]\n" + starter +
        "[battery]\nchemistry = \"agm\"\ncapacity = \"120 Ah\"\n[charger]\noutput = \"25 A\"\n[rules]\n" + rules +
        "[[run]]\nto = \"charger\"\nlength = \"4 m\"\n" + feed + "[[run]]\nto = \"battery\"\nlength = \"1 m\"\n" +
        more));
}

/// What is said of it; empty where nothing is.
std::string said(const Plan& plan, AssumptionCode code) {
    const auto one = std::find_if(plan.assumptions.begin(), plan.assumptions.end(),
                                  [&](const Assumption& assumption) { return assumption.code == code; });
    return one == plan.assumptions.end() ? "" : show(*one);
}

bool warned(const Plan& plan, std::string_view code) {
    return std::any_of(plan.findings.begin(), plan.findings.end(),
                       [&](const Finding& one) { return show(one.code) == code; });
}

const std::string two_lamps = "[[load]]\nname = \"lamp\"\ndraw = \"10 W\"\n[[load]]\nname = \"pump\"\ndraw = \"2 A\"\n";

}  // namespace

TEST_CASE("the ampacity rows of all metric runs are one line") {
    const Plan plan = plan_of("", "size = \"10 mm2\"\n", "", "sizes = [\"6 mm2\", \"10 mm2\", \"16 mm2\"]\n");
    const std::string rows = said(plan, AssumptionCode::ampacity_row);
    // ASTM B258: 8 AWG is 8.37 mm2, 6 AWG 13.3 mm2.
    CHECK(rows.find("10 mm2 as 8 AWG") != std::string::npos);
    CHECK(std::count_if(plan.assumptions.begin(), plan.assumptions.end(),
                        [](const Assumption& one) { return one.code == AssumptionCode::ampacity_row; }) == 1);
    CHECK(said(plan_of(""), AssumptionCode::ampacity_row).empty());
}

TEST_CASE("small loads without a run are one line, and none where they have theirs") {
    CHECK(said(plan_of(two_lamps), AssumptionCode::no_run) ==
          "lamp, pump: no run leads there; taken to sit at the battery.");
    CHECK(said(plan_of(two_lamps +
                       "[[run]]\nto = \"lamp\"\nlength = \"1 m\"\n[[run]]\nto = \"pump\"\nlength = \"1 m\"\n"),
               AssumptionCode::no_run)
              .empty());
}

TEST_CASE("a body return is a warning where its upper end decides, and a line where the cable does all the same") {
    // 3 mOhm as usual and 5 mOhm at most, at some 33 A: 66 mV more. The feed may lose 0.72 V.
    const Plan thick = plan_of("", "return = \"body\"\nsize = \"4 AWG\"\n");
    CHECK_FALSE(warned(thick, "body-return"));
    CHECK(said(thick, AssumptionCode::body_return).find("feed: the vehicle's body is the return") == 0);
    const Plan short_of = plan_of("", "return = \"body\"\nsize = \"4 AWG\"\n", "", "feed_drop = \"2 %\"\n");
    CHECK(warned(short_of, "body-return"));
    CHECK(said(short_of, AssumptionCode::body_return).empty());
    CHECK_FALSE(warned(plan_of("", "return = \"4 mOhm\"\n"), "body-return"));
}

TEST_CASE("what is given is not assumed") {
    CHECK_FALSE(said(plan_of(""), AssumptionCode::starter_assumed).empty());
    CHECK(said(plan_of("", "", "cold_cranking = \"600 A\"\n"), AssumptionCode::starter_assumed).empty());
    CHECK(said(plan_of(""), AssumptionCode::smart_current).empty());
    CHECK_FALSE(said(plan_of("", "", "alternator = \"smart\"\n"), AssumptionCode::smart_current).empty());
}

TEST_CASE("the trip knows what it rests on itself") {
    const Plan plan = plan_of("[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n");
    for (const AssumptionCode code :
         {AssumptionCode::battery_new, AssumptionCode::idling, AssumptionCode::charger_spare,
          AssumptionCode::fridge_one_point, AssumptionCode::fridge_starts_cold}) {
        CHECK(std::count_if(plan.energy.assumptions.begin(), plan.energy.assumptions.end(),
                            [code](const Assumption& one) { return one.code == code; }) == 1);
        CHECK_FALSE(said(plan, code).empty());
    }
    CHECK(plan.energy.assumptions.size() == 5);
}

}  // namespace voltwright

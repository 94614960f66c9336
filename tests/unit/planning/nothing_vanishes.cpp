#include "journeys.hpp"
#include "testing.hpp"

#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/figures_missing.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/planning/replan.hpp"
#include "voltwright/report/autonomy_text.hpp"
#include "voltwright/report/plan_text.hpp"
#include "voltwright/report/trip_text.hpp"

#include <algorithm>
#include <string>

/// What fails is shown with what it is, and charges nothing.

namespace voltwright {

namespace {

/// A charger of 60 A behind 7 m of cable that the owner has.
std::string with_feed(const std::string& size) {
    return "[trip]\ndays = 3\nlow = \"12 degC\"\nhigh = \"24 degC\"\ndrives = \"09:00-11:00\"\n[battery]\nchemistry = "
           "\"agm\"\ncapacity = \"200 Ah\"\n[charger]\noutput = \"60 A\"\n[[run]]\nto = \"charger\"\nlength = \"7 m\"\n"
           "size = \"" +
           size + "\"\n[[load]]\nname = \"lamp\"\ndraw = \"12 W\"\nduty = \"100 %\"\n";
}

Plan plan_of(const std::string& text) { return make_plan(testing::system_of_text(text)); }

}  // namespace

TEST_CASE("a feed that cannot bring the power is told with its current, its ohms and what it may carry") {
    const Plan plan = plan_of(with_feed("12 AWG"));
    REQUIRE(figures_missing(plan.runs.front()) == FiguresMissing::power_not_brought);
    const std::string page = plan_page(plan, {.width = 200});
    CHECK(page.find("at worst, which cannot come through its") != std::string::npos);
    CHECK(page.find("the cable may carry") != std::string::npos);
    CHECK(page.find("unknown amount") == std::string::npos);
}

TEST_CASE("trip and autonomy say in one line that nothing is charged") {
    const Plan plan = plan_of(with_feed("12 AWG"));
    CHECK(plan.energy.trip.ledger.from_charger == Charge{});
    const std::string trip = trip_page(plan, {.width = 200});
    // Before the chart, not only below it.
    CHECK(trip.find("feed: ") < trip.find("State of charge"));
    const auto answer = autonomy_of(testing::system_of_text(with_feed("12 AWG")), {});
    REQUIRE(answer);
    REQUIRE(answer->not_charged.size() == 1);
    CHECK(show(answer->not_charged.front().code) == "charger-not-fed");
    CHECK(autonomy_page(*answer, {.width = 200}).find("so it charges nothing") != std::string::npos);
}

TEST_CASE("a comparison with a feed that brings nothing shows the ohms that became less") {
    const Replan replan = compare(plan_of(with_feed("12 AWG")), plan_of(with_feed("2 AWG")));
    const auto resistance = std::find_if(replan.changed.begin(), replan.changed.end(), [](const Changed& one) {
        return one.what == Aspect::resistance && one.about == "feed";
    });
    REQUIRE(resistance != replan.changed.end());
    CHECK(std::get<Resistance>(std::get<Measure>(resistance->after)) <
          std::get<Resistance>(std::get<Measure>(resistance->before)));
}

}  // namespace voltwright

// How long driving fills a battery, and what becomes of one that is never filled.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/autonomy_question.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/report/energy_words.hpp"
#include "voltwright/simulation/autonomy.hpp"

#include <algorithm>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

std::string van(std::string_view days, std::string_view drives, std::string_view chemistry = "agm",
                std::string_view output = "25 A", std::string_view capacity = "100 Ah") {
    return "[trip]\ndays = " + std::string(days) + "\nlow = \"18 degC\"\nhigh = \"30 degC\"\ndrives = \"" +
           std::string(drives) + "\"\n[battery]\nchemistry = \"" + std::string(chemistry) + "\"\ncapacity = \"" +
           std::string(capacity) + "\"\nwhere = \"25 degC\"\n[charger]\noutput = \"" + std::string(output) + R"("
[[run]]
to = "charger"
length = "5 m"
[[fridge]]
draw = "45 W"
rated = [{ around = "25 degC", a_day = "22 Ah" }]
)";
}

Plan plan_of_text(const std::string& toml) { return make_plan(system_of_text(toml)); }

const Finding* found(const Plan& plan, std::string_view code) {
    const auto one = std::find_if(plan.findings.begin(), plan.findings.end(),
                                  [&](const Finding& finding) { return show(finding.code) == code; });
    return one == plan.findings.end() ? nullptr : &*one;
}

}  // namespace

TEST_CASE("a simulation notes when the battery first holds 80, 90 and 95 %, to the minute of its timeline") {
    for (const char* chemistry : {"flooded", "agm", "gel", "lfp"}) {
        CAPTURE(chemistry);
        Scenario scenario = lone_scenario(usual_battery(chemistry, ampere_hours(100)), {});
        for (int minute = 0; minute < 8 * 60; ++minute) add_interval(scenario, minutes(1), {}, amperes(20));
        const TripResult trip = simulate(scenario, {.points = true, .start_soc = Ratio{0.5}});
        for (std::size_t i = 0; i < told_fillings.size(); ++i) {
            CAPTURE(told_fillings[i]);
            const auto first = std::find_if(trip.points.begin(), trip.points.end(),
                                            [&](const TimelinePoint& point) { return point.soc >= told_fillings[i]; });
            REQUIRE(first != trip.points.end());
            REQUIRE(trip.filled[i]);
            CHECK(*trip.filled[i] <= first->at);
            CHECK(*trip.filled[i] >= first->at - minutes(1));
        }
        // In one interval it is the same.
        Scenario whole = lone_scenario(usual_battery(chemistry, ampere_hours(100)), {});
        add_interval(whole, hours(8), {}, amperes(20));
        const TripResult at_once = simulate(whole, {.stop_when_filled = true, .start_soc = Ratio{0.5}});
        for (std::size_t i = 0; i < told_fillings.size(); ++i) {
            REQUIRE(at_once.filled[i]);
            CHECK(*at_once.filled[i] == near(*trip.filled[i], seconds(90)));
        }
        CHECK(at_once.lasted < hours(8));
    }
}

TEST_CASE("what is full to begin with is filled at once, and what is not charged never is") {
    Scenario scenario = lone_scenario(usual_battery("agm", ampere_hours(100)), {});
    add_interval(scenario, hours(1), {});
    const TripResult idle = simulate(scenario, {.start_soc = Ratio{0.85}});
    REQUIRE(idle.filled[0]);
    CHECK(*idle.filled[0] == Duration{});
    CHECK_FALSE(idle.filled[1]);
    CHECK_FALSE(idle.filled[2]);
}

// 30 Ah from 50 to 80 % take at least 1.2 h at 25 A less what the fridge takes.
TEST_CASE("pages tell how long one drive has to be to 80, 90 and 95 %, and no single rate") {
    const Plan plan = plan_of_text(van("3", "08:30-10:00"));
    REQUIRE(plan.energy.driving);
    const DrivingWorth& driving = *plan.energy.driving;
    REQUIRE((driving.filled[0] && driving.filled[1] && driving.filled[2]));
    CHECK(*driving.filled[0] > hours(1.2));
    CHECK(*driving.filled[0] < *driving.filled[1]);
    // The last 5 % take longer than their share.
    CHECK(*driving.filled[2] - *driving.filled[1] > *driving.filled[0] / 6.0);
    const std::string words = filling_words(driving);
    CHECK(words.find("driving in one go from 50 %: 80 % after 1 h ") == 0);
    CHECK(words.find(", 90 % after ") != std::string::npos);
    CHECK(words.find(", 95 % after ") != std::string::npos);

    const auto answer = autonomy_of(system_of_text(van("3", "08:30-10:00")), {});
    REQUIRE((answer && answer->driving));
    CHECK(answer->driving->from == answer->standard.end);
}

TEST_CASE("a drive may go on after midnight") {
    const Plan day = plan_of_text(van("3", "08:30-10:00")), night = plan_of_text(van("3", "22:30-24:00"));
    REQUIRE((day.energy.driving && night.energy.driving));
    REQUIRE((day.energy.driving->filled[2] && night.energy.driving->filled[2]));
    // The fridge takes less at night.
    CHECK(*night.energy.driving->filled[2] <= *day.energy.driving->filled[2]);
}

TEST_CASE("a charger that is small for its battery fills it in no drive") {
    const Plan plan = plan_of_text(van("3", "08:30-10:00", "agm", "6 A", "300 Ah"));
    REQUIRE(plan.energy.driving);
    CHECK_FALSE(plan.energy.driving->filled[2]);
    const std::string words = filling_words(*plan.energy.driving);
    CHECK(words.find("not within 12 h") != std::string::npos);
    // Told once.
    CHECK(words.find("not within") == words.rfind("not within"));
}

TEST_CASE("lead that is part charged for two weeks on end is told what becomes of such, lithium is not") {
    const std::string_view short_drive = "08:30-09:15";
    const Plan weeks = plan_of_text(van("21", short_drive));
    const Finding* fades = found(weeks, "part-charged");
    REQUIRE(fades);
    CHECK(fades->level == Level::warn);
    const std::string words = show(*fades);
    CHECK(words.find("65 % to 70 %") != std::string::npos);
    // Once.
    CHECK_FALSE(found(weeks, "never-full"));
    CHECK_FALSE(found(plan_of_text(van("7", short_drive)), "part-charged"));
    CHECK_FALSE(found(plan_of_text(van("21", short_drive, "lfp")), "part-charged"));
    CHECK_FALSE(found(plan_of_text(van("21", "08:30-14:30")), "part-charged"));
}

// Which stops stop the trip and the hours with the engine off too. What concerns which is common practice, no source: a trip
// without the power that it was worked out with is another trip.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/report/autonomy_text.hpp"
#include "voltwright/report/plan_json.hpp"
#include "voltwright/report/plan_text.hpp"
#include "voltwright/report/trip_text.hpp"

#include <algorithm>
#include <string>

using namespace voltwright;

namespace {

std::string van(const std::string& more, const std::string& feed = "", const std::string& trip = "") {
    return "[trip]\ndays = 3\nlow = \"12 degC\"\nhigh = \"24 degC\"\ndrives = \"09:00-12:00\"\n" + trip +
           "[battery]\nchemistry = \"agm\"\ncapacity = \"100 Ah\"\n[charger]\noutput = \"20 A\"\n[[run]]\nto = "
           "\"charger\"\nlength = \"3 m\"\n" +
           feed + "[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"18 Ah\" }]\n" + more;
}

const Finding* stop(const Findings& findings, FindingCode code) {
    const auto found = std::find_if(findings.begin(), findings.end(),
                                    [code](const Finding& one) { return one.stops() && one.code == code; });
    return found == findings.end() ? nullptr : &*found;
}

struct Answers {
    Plan plan;
    AutonomyAnswer autonomy;
};

Answers answers(const std::string& profile) {
    const System system = testing::system_of_text(profile);
    auto autonomy = autonomy_of(system, {});
    REQUIRE(autonomy);
    return {make_plan(system), *std::move(autonomy)};
}

bool has(const std::string& page, std::string_view words) { return page.find(words) != std::string::npos; }

}  // namespace

TEST_CASE("a fuse that blows at what the charger draws stops the trip, not the hours with the engine off") {
    const Answers found = answers(van("", "fuse = \"15 A blade\"\n"));
    CHECK(stop(found.plan.energy.findings, FindingCode::fuse_too_small));
    CHECK_FALSE(found.plan.energy.holds());
    CHECK(found.autonomy.holds());
    CHECK(has(trip_page(found.plan, {}), "THE TRIP DOES NOT HOLD."));
    CHECK(has(trip_page(found.plan, {}), "What stops it"));
}

TEST_CASE("a fuse that blows at what the fridge draws stops both") {
    const Answers found = answers(van("[[run]]\nto = \"fridge\"\nlength = \"3 m\"\nfuse = \"3 A blade\"\n"));
    CHECK(stop(found.plan.energy.findings, FindingCode::fuse_too_small));
    CHECK(stop(found.autonomy.stops, FindingCode::fuse_too_small));
    CHECK_FALSE(found.autonomy.holds());
}

TEST_CASE("a charger that never sleeps stops the hours with the engine off") {
    const std::string smart = "[starter]\nalternator = \"smart\"\n";
    std::string profile = van(smart);
    const std::string output = "output = \"20 A\"\n";
    profile.insert(profile.find(output) + output.size(), "wake = \"voltage\"\n");
    const Answers found = answers(profile);
    CHECK(stop(found.plan.findings, FindingCode::never_sleeps));
    CHECK_FALSE(found.plan.energy.holds());
    CHECK_FALSE(found.autonomy.holds());
}

TEST_CASE("a fuse that is too large for what it feeds stops the wiring alone, and trip and autonomy say so") {
    const Answers found =
        answers(van("[[run]]\nto = \"fridge\"\nlength = \"3 m\"\nsize = \"14 AWG\"\nfuse = \"40 A blade\"\nhave = "
                    "\"cable, fuse\"\n"));
    CHECK(stop(found.plan.findings, FindingCode::fuse_above_part));
    CHECK_FALSE(found.plan.holds());
    CHECK(found.plan.energy.holds());
    CHECK(found.plan.energy.wiring_stops >= 1);
    CHECK(has(trip_line(found.plan), "THE TRIP HOLDS."));
    CHECK(has(trip_line(found.plan), "The wiring does not hold"));
    CHECK(has(autonomy_line(found.autonomy), "The wiring does not hold"));
    CHECK(has(trip_json(found.plan), "\"wiring_holds\": false"));
    CHECK(has(autonomy_json(found.autonomy), "\"wiring_holds\": false"));
}

TEST_CASE("a limit that the cold lifts is told with the temperature that it was taken at") {
    std::string profile = van("", "", "");
    for (const auto& [warm, cold] :
         {std::pair{"low = \"12 degC\"", "low = \"-5 degC\""}, std::pair{"high = \"24 degC\"", "high = \"4 degC\""}})
        profile.replace(profile.find(warm), std::string(warm).size(), cold);
    const Answers found = answers(profile);
    const Autonomy& autonomy = found.plan.energy.autonomy;
    REQUIRE(autonomy.ended_by == EndedBy::depth_limit);
    CHECK(autonomy.limit > Ratio{0.5});
    CHECK(autonomy.limit_at < celsius(5));
    CHECK(has(autonomy_line(found.autonomy), "(50 % in the warm)"));
}

TEST_CASE("a trip that fails says when first, and by what") {
    // One drive of an hour and 60 W day and night: by hand more than 100 Ah a day, and 20 Ah come back.
    std::string profile = van("[[load]]\nname = \"pump\"\ndraw = \"60 W\"\nhours = \"00:00-24:00\"\n");
    const std::string drives = "\"09:00-12:00\"";
    profile.replace(profile.find(drives), drives.size(), "\"09:00-10:00\"");
    const Answers found = answers(profile);
    const auto first = found.plan.energy.trip.first_failure();
    REQUIRE(first);
    CHECK(first->by == EndedBy::depth_limit);
    CHECK(first->at.day == 1);
    CHECK(has(trip_json(found.plan), "\"by_code\": \"depth-limit\""));
    CHECK(stop(found.plan.energy.findings, FindingCode::depth_limit));
}

TEST_CASE("a battery that freezes before it is down to its limit stops the hours with the engine off") {
    // A start type freezes at -26 degC half charged, at -37 degC at 75 %: army TM 5-4210-230, read.
    const Answers found = answers(
        "[trip]\ndays = 3\nlow = \"-34 degC\"\nhigh = \"-27 degC\"\n[battery]\nchemistry = \"flooded\"\ndepth_limit = "
        "\"100 %\"\ncapacity = "
        "\"100 Ah\"\nwhere = \"shade\"\n[charger]\noutput = \"20 A\"\n[[run]]\nto = \"charger\"\nlength = \"4 "
        "m\"\n[[load]]\nname = \"heater\"\ndraw = \"20 W\"\nhours = \"00:00-24:00\"\n");
    CHECK(stop(found.plan.energy.findings, FindingCode::acid_freezes));
    CHECK(stop(found.autonomy.stops, FindingCode::acid_freezes));
    CHECK_FALSE(found.autonomy.holds());
}

TEST_CASE(
    "a battery that is left discharged before a cold night stops the hours, though it is warm enough as they end") {
    // Flooded, 30 % charged, freezes at -17 degC: between -15.0 at 25 % and -26.1 at 50 %, army TM 5-4210-230 (read).
    const auto answer = autonomy_of(
        testing::system_of_text(
            "[trip]\ndays = 4\nlow = \"-22 degC\"\nhigh = \"-12 degC\"\ndrives = \"09:00-10:00\"\n[battery]\n"
            "chemistry = \"flooded\"\ncapacity = \"110 Ah\"\ndepth_limit = \"80 %\"\nwhere = \"canopy\"\n"
            "[charger]\noutput = \"25 A\"\n[[run]]\nto = \"charger\"\nlength = \"3 m\"\n[[load]]\nname = "
            "\"heater\"\ndraw = \"20 W\"\nhours = \"00:00-24:00\"\n"),
        {.from = percent(30), .rested = {}, .at = hours(22)});
    REQUIRE(answer);
    CHECK(answer->standard.lasts < hours(1));
    CHECK(stop(answer->stops, FindingCode::acid_freezes));
    CHECK_FALSE(answer->holds());
}

TEST_CASE("a trip that begins below its limit is to be charged before, not driven more") {
    std::string profile = van("");
    profile.replace(profile.find("capacity"), 8, "start_soc = \"40 %\"\ncapacity");
    const Answers found = answers(profile);
    const Finding* limit = stop(found.plan.energy.findings, FindingCode::depth_limit);
    REQUIRE(limit);
    REQUIRE_FALSE(limit->remedy.steps.empty());
    CHECK(limit->remedy.steps.front().code == RemedyCode::charge_before_leaving);
}

TEST_CASE("where an hour of driving costs charge nobody is told to drive more") {
    // 5 A day and night from a charger of 4 A: by hand an ampere-hour less with every hour.
    std::string profile = van("[[load]]\nname = \"box\"\ndraw = \"5 A\"\nhours = \"00:00-24:00\"\n");
    profile.replace(profile.find("20 A"), 4, "4 A");
    const Answers found = answers(profile);
    const Finding* limit = stop(found.plan.energy.findings, FindingCode::depth_limit);
    REQUIRE(limit);
    const Argument* more = find_argument(limit->arguments, "more_charge");
    REQUIRE(more);
    CHECK(std::get<MoreCharge>(more->value) == MoreCharge::larger_charger_or_panel);
}

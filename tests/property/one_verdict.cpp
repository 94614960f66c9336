// Trip, autonomy, replan and plan give one verdict, over a hundred and fifty vehicles drawn at random.

#include "drawn_nights.hpp"
#include "testing.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/planning/replan.hpp"
#include "voltwright/report/autonomy_text.hpp"
#include "voltwright/report/plan_text.hpp"
#include "voltwright/report/replan_text.hpp"
#include "voltwright/report/trip_text.hpp"

#include <algorithm>
#include <cstdlib>
#include <string>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

constexpr unsigned vehicles = 150;

/// Some with cables and fuses that are there already, and do not do.
DrawnNight vehicle(unsigned number) {
    DrawnNight night(number + 4000);
    Dice dice(number + 77);
    const auto owned = [&](const std::string& to) {
        night.more += "[[run]]\nto = \"" + to + "\"\nlength = \"" + std::to_string(dice.whole(1, 6)) +
                      " m\"\nsize = \"" + dice.one_of<std::string>({"14 AWG", "10 AWG", "6 AWG"}) + "\"\nfuse = \"" +
                      dice.one_of<std::string>({"3 A blade", "15 A blade", "30 A blade"}) +
                      "\"\nhave = \"cable, fuse\"\n";
    };
    if (dice.whole(0, 2) == 0 && night.fridge_watts > 0) owned("fridge");
    if (dice.whole(0, 2) == 0) owned("battery");
    return night;
}

std::size_t stops_of(const Findings& findings, Concern concern) {
    return static_cast<std::size_t>(std::count_if(
        findings.begin(), findings.end(), [&](const Finding& one) { return one.stops() && one.concern == concern; }));
}

bool has(const std::string& page, const std::string& words) { return page.find(words) != std::string::npos; }

/// Every "N %" that a page names as a limit: before "(", after "limit of".
bool tells_limit_above(const std::string& page, Ratio lowest) {
    for (std::size_t at = page.find("limit of "); at != std::string::npos; at = page.find("limit of ", at + 1))
        if (std::atof(page.c_str() + at + 9) > in_percent(lowest) + 0.05) return true;
    return false;
}

}  // namespace

TEST_CASE("trip, autonomy, replan and plan share one verdict, and what stops it stands under what stops it") {
    int hold = 0, fail = 0, wiring_alone = 0, engine_off = 0, limit_beside = 0;
    const Style plain{.width = 400};
    for (unsigned number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const System system = system_of_text(vehicle(number).text());
        const Plan plan = make_plan(system, built_in_tables(), {.ladders = Ladder::needed});
        const EnergyPlan& energy = plan.energy;
        const std::size_t wiring = stops_of(plan.findings, Concern::wiring),
                          trip = stops_of(plan.findings, Concern::trip),
                          parked = stops_of(plan.findings, Concern::engine_off);

        // A stop anywhere is a stop of the plan; one that concerns the trip is one of the trip.
        CHECK(plan.holds() == (wiring + trip + parked == 0));
        CHECK(energy.holds() == (trip + parked == 0));
        CHECK(static_cast<std::size_t>(energy.wiring_stops) == wiring);
        // What the simulation fails is told as a stop.
        if (!energy.trip.holds()) CHECK_FALSE(energy.holds());
        CHECK(energy.trip.first_failure().has_value() == !energy.trip.holds());

        const auto alone = autonomy_of(system, {}, built_in_tables());
        REQUIRE(alone);
        // Discharged to its end the acid may freeze where the trip does not let it.
        const auto freezes =
            static_cast<std::size_t>(std::count_if(alone->stops.begin(), alone->stops.end(), [](const Finding& one) {
                return one.code == FindingCode::acid_freezes;
            }));
        CHECK(alone->holds() == (parked + freezes == 0));
        CHECK(alone->stops.size() == parked + freezes);

        const Replan same = compare(plan, plan);
        CHECK(has(replan_line(same), plan.holds() ? "HOLDS, as before" : "DOES NOT HOLD, as before"));

        const std::string trip_words = trip_page(plan, plain), plan_words = plan_page(plan, plain),
                          autonomy_words = autonomy_page(*alone, plain);
        CHECK(has(trip_words, "THE TRIP HOLDS") == energy.holds());
        CHECK(has(trip_words, "THE TRIP DOES NOT HOLD") != energy.holds());
        CHECK(has(trip_words, "What stops it") != energy.holds());
        CHECK(has(trip_words, "The wiring does not hold") == (wiring > 0));
        CHECK(has(autonomy_words, "What stops it") != alone->holds());
        CHECK(has(autonomy_words, "The wiring does not hold") == (wiring > 0));
        CHECK(has(plan_words, "THE PLAN HOLDS") == plan.holds());
        CHECK(has(plan_words, "What stops it") != plan.holds());
        if (!energy.dull) CHECK(has(plan_words, "holds; lowest") == (energy.holds() && !energy.house_idle()));

        // No "holds" beside a figure under a limit without the limit that counts there.
        if (energy.holds() && tells_limit_above(plan_words, energy.trip.lowest)) {
            CHECK(has(plan_words, "its limit then is"));
            ++limit_beside;
        }
        if (energy.holds()) CHECK(energy.trip.lowest >= energy.trip.deepest_allowed - Ratio{1e-6});

        hold += plan.holds();
        fail += !energy.holds();
        wiring_alone += energy.holds() && wiring > 0;
        engine_off += parked > 0;
    }
    // Of each kind there are some.
    CHECK(hold >= 10);
    CHECK(fail >= 30);
    CHECK(wiring_alone >= 5);
    CHECK(engine_off >= 3);
    MESSAGE(hold, " hold, ", fail, " trips fail, ", wiring_alone, " by the wiring alone, ", engine_off,
            " with the engine off, ", limit_beside, " with a limit beside");
}

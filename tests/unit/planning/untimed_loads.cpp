// Loads of which nobody says when they run, and fridges that nobody cooled down before the trip: said, and marked as a warning where
// it decides.

#include "voltwright/planning/untimed_loads.hpp"

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/messages/assumptions.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/profile/complete.hpp"
#include "voltwright/units/literals.hpp"

#include <algorithm>

using namespace voltwright;
using namespace voltwright::literals;
using namespace voltwright::testing;

namespace {

/// Three days on a battery, driven for 90 minutes each morning.
std::string camp(const std::string& more, const std::string& capacity = "120 Ah", const std::string& fridge = {}) {
    return "[trip]\ndays = 3\nlow = \"14 degC\"\nhigh = \"31 degC\"\ndrives = \"08:30-10:00\"\n[battery]\nchemistry = "
           "\"agm\"\ncapacity = \"" +
           capacity +
           "\"\n[charger]\noutput = \"25 A\"\n[[run]]\nto = \"charger\"\nlength = \"6 m\"\n[[fridge]]\ndraw = \"45 "
           "W\"\n"
           "rated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n" +
           fridge + more;
}

std::string load(const std::string& draw, const std::string& keys = {}) {
    return "[[load]]\nname = \"charger of phones\"\ndraw = \"" + draw + "\"\n" + keys;
}

Plan plan_of(const std::string& text) { return make_plan(system_of_text(text)); }

const ConsumerResult& served(const Plan& plan, std::string_view name) {
    const auto& all = plan.energy.trip.served;
    const auto one =
        std::find_if(all.begin(), all.end(), [&](const ConsumerResult& each) { return each.name == name; });
    REQUIRE(one != all.end());
    return *one;
}

const Finding* warned(const Plan& plan, std::string_view code) {
    for (const Finding& one : plan.energy.findings)
        if (show(one.code) == code) return &one;
    return nullptr;
}

const Assumption* assumed(const Plan& plan, std::string_view code) {
    for (const Assumption& one : plan.energy.assumptions)
        if (show(one.code) == code) return &one;
    return nullptr;
}

}  // namespace

TEST_CASE("a load without hours or duty draws nothing, and its ampere-hours an hour are said") {
    const Plan plan = plan_of(camp(load("12 W")));
    CHECK(served(plan, "charger of phones").used == Charge{});
    const Assumption* off = assumed(plan, "load-off");
    REQUIRE(off);
    CHECK(in_ampere_hours(std::get<Charge>(*off->found)) == near(1.0, 0.02));
    CHECK_FALSE(warned(plan, "load-hours"));
    for (const char* keys : {"hours = \"18:00-20:00\"\n", "duty = \"10 %\"\n"}) {
        const Plan told = plan_of(camp(load("12 W", keys)));
        CHECK(served(told, "charger of phones").used > ampere_hours(3));
        CHECK_FALSE(assumed(told, "load-off"));
    }
}

TEST_CASE("where its hours decide the trip, a load without them is a warning with the hours that the trip bears") {
    const Plan plan = plan_of(camp(load("40 W")));
    CHECK(plan.energy.holds());
    const Finding* hours_wanted = warned(plan, "load-hours");
    REQUIRE(hours_wanted);
    CHECK(hours_wanted->level == Level::warn);
    CHECK_FALSE(assumed(plan, "load-off"));
    // So long a day it holds, and not for a quarter of an hour more.
    const Duration bearable = std::get<Duration>(*hours_wanted->found);
    REQUIRE(bearable > hours(1));
    const auto holds_for = [](Duration a_day) {
        return plan_of(camp(load("40 W", "duty = \"" + std::to_string(100.0 * in_hours(a_day) / 24.0) + " %\"\n")))
            .energy.holds();
    };
    CHECK(holds_for(bearable));
    CHECK_FALSE(holds_for(bearable + minutes(15)));
}

TEST_CASE("what is essential, and what hangs on the starter battery, counts as on day and night") {
    const Plan plan = plan_of(camp(load("12 W", "essential = true\n")));
    CHECK(served(plan, "charger of phones").used == near(ampere_hours(70), ampere_hours(5)));
    REQUIRE(assumed(plan, "load-always-on"));
    CHECK_FALSE(assumed(plan, "load-off"));
    const Plan alarm =
        plan_of(camp(load("2 W") + "[[run]]\nfrom = \"starter\"\nto = \"charger of phones\"\nlength = \"2 m\"\n"));
    REQUIRE(alarm.energy.starter);
    CHECK(alarm.energy.starter->taken > ampere_hours(3));
    CHECK(assumed(alarm, "load-always-on"));
}

TEST_CASE("cables are chosen for a load without hours all the same") {
    const Plan plan = plan_of(camp(load("15 A") + "[[run]]\nto = \"charger of phones\"\nlength = \"3 m\"\n"));
    const auto run = std::find_if(plan.runs.begin(), plan.runs.end(),
                                  [](const RunPlan& one) { return one.task.to.name == "charger of phones"; });
    REQUIRE(run != plan.runs.end());
    CHECK(design_current(run->task.load).current == near(15_A, 0.1_A));
}

TEST_CASE("a fridge that is taken to start cold says what a warm filling takes") {
    const Plan plan = plan_of(camp({}));
    const Assumption* cold = assumed(plan, "fridge-starts-cold");
    REQUIRE(cold);
    // 12 kg of drinks from 25 to 4 °C: 16.28 Ah at 12 V, recomputed from textbook constants.
    CHECK(in_ampere_hours(std::get<Charge>(*cold->found)) == near(16.3, 1.0));
    CHECK_FALSE(warned(plan, "fridge-starts-warm"));
    const std::string filled = "restock = [{ on = \"1\", at = \"07:00\", mass = \"12 kg\", from = \"25 degC\" }]\n";
    const Plan warm = plan_of(camp({}, "120 Ah", filled));
    CHECK_FALSE(assumed(warm, "fridge-starts-cold"));
    CHECK(served(warm, "fridge").used > served(plan, "fridge").used + ampere_hours(10));
}

TEST_CASE("where a warm start would fail the trip, that is a warning, and nowhere else") {
    const std::string filled = "restock = [{ on = \"1\", at = \"00:00\", mass = \"12 kg\", from = \"25 degC\" }]\n";
    int warnings = 0, silent = 0;
    for (int capacity = 50; capacity <= 90; ++capacity) {
        CAPTURE(capacity);
        const std::string written = std::to_string(capacity) + " Ah";
        const Plan plan = plan_of(camp({}, written));
        if (!plan.energy.trip.holds()) continue;
        const bool fails = !plan_of(camp({}, written, filled)).energy.trip.holds();
        CHECK((warned(plan, "fridge-starts-warm") != nullptr) == fails);
        CHECK((assumed(plan, "fridge-starts-cold") != nullptr) == !fails);
        ++(fails ? warnings : silent);
    }
    CHECK(warnings > 0);
    CHECK(silent > 0);
}

TEST_CASE("ampere-hours that were counted come back as counted, at the voltage of the chemistry") {
    // A day at the temperature where they were counted: what a counter shows is what is used.
    for (const char* chemistry : {"flooded", "agm", "gel", "lfp"}) {
        CAPTURE(chemistry);
        const Plan plan =
            plan_of("[trip]\ndays = 1\nlow = \"25 degC\"\nhigh = \"25 degC\"\n[battery]\nchemistry = \"" +
                    std::string(chemistry) +
                    "\"\ncapacity = \"100 Ah\"\nwhere = \"25 degC\"\n[charger]\noutput = \"20 A\"\n[[run]]\nto = "
                    "\"charger\"\nlength = \"5 m\"\n[[fridge]]\ndraw = \"45 W\"\nwhere = \"25 degC\"\nrated = [{ "
                    "around = \"25 degC\", a_day = \"24 Ah\" }]\n");
        CHECK(in_ampere_hours(served(plan, "fridge").used) == near(24.0, 0.5));
    }
}

TEST_CASE("a profile with all its defaults written out says no more of a load's hours than before") {
    const std::string text = camp(load("12 W"));
    auto read = read_document_text("test", text);
    Faults faults;
    const Profile given = read_profile(std::get<Document>(read).root, faults);
    const Profile completed = complete(given, built_in_tables());
    const auto system = resolve(completed, built_in_tables());
    REQUIRE(std::holds_alternative<System>(system));
    CHECK(served(make_plan(std::get<System>(system)), "charger of phones").used == Charge{});
}

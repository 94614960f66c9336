// What fails keeps its figures, and nothing is charged through a cable that cannot bring it. What is expected here is
// arithmetic of P = V·I through a resistance: a source of V behind R gives V²/(4·R) at most.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/messages/parts.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/planning/replan.hpp"
#include "voltwright/shopping/parts.hpp"

#include <algorithm>
#include <string>

using namespace voltwright;

namespace {

System vehicle(const std::string& charger, const std::string& feed, const std::string& rules = "",
               const std::string& fridge = "") {
    return testing::system_of_text(
        "[trip]\ndays = 3\nlow = \"12 degC\"\nhigh = \"24 degC\"\ndrives = \"09:00-11:00\"\n"
        "[starter]\nrunning = \"14.1 V\"\n[battery]\nchemistry = \"agm\"\ncapacity = \"100 Ah\"\n[charger]\n" +
        charger + "\n[rules]\n" + rules + "\n[[run]]\nto = \"charger\"\n" + feed +
        "\n[[run]]\nto = \"battery\"\nlength = \"0.6 m\"\n[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 "
        "degC\", "
        "a_day = \"22 Ah\" }]\n[[run]]\nto = \"fridge\"\n" +
        (fridge.empty() ? "length = \"3 m\"" : fridge) + "\n");
}

const RunPlan& run(const Plan& plan, const std::string& name) {
    const auto found = std::find_if(plan.runs.begin(), plan.runs.end(),
                                    [&](const RunPlan& one) { return *one.task.run.name == name; });
    REQUIRE(found != plan.runs.end());
    return *found;
}

bool stops(const Plan& plan, const std::string& about) {
    return std::any_of(plan.findings.begin(), plan.findings.end(), [&](const Finding& finding) {
        return finding.level == Level::stop && show(finding.about) == about;
    });
}

Charge charged(const Plan& plan) { return plan.energy.trip.ledger.from_charger; }

}  // namespace

TEST_CASE("a feed whose power cannot be brought charges nothing, chosen or owned") {
    for (const System& system : {vehicle("output = \"40 A\"", "length = \"15 m\"", "sizes = [\"12 AWG\", \"10 AWG\"]"),
                                 vehicle("output = \"60 A\"", "length = \"7 m\"\nsize = \"12 AWG\"")}) {
        const Plan plan = make_plan(system);
        const RunPlan& feed = run(plan, "feed");
        REQUIRE(feed.taken());
        CHECK_FALSE(feed.taken()->fits());
        // By hand: the power asked for is more than V²/(4·R) of the loop with its conductors hot.
        const double watts = in_watts(std::get<Power>(law_of(feed.task.load)));
        CHECK(watts > 14.1 * 14.1 / (4.0 * in_ohms(feed.taken()->hot_loop)));
        CHECK(stops(plan, "feed"));
        CHECK_FALSE(feed.figures);
        CHECK(charged(plan) == Charge{});
        CHECK(plan.energy.charger.output == Current{});
        REQUIRE(plan.energy.driving);
        CHECK(plan.energy.driving->an_hour < Charge{});
    }
}

TEST_CASE("a charger that gives up at the usual running voltage charges nothing; at its input limit, what it can") {
    // 40 A at 14.4 V and 90 % ask for 640 W: through 12 AWG they come, at less than the charger's 12.7 V.
    const Plan gives_up = make_plan(vehicle("output = \"40 A\"", "length = \"2.5 m\"\nsize = \"12 AWG\""));
    REQUIRE(run(gives_up, "feed").figures);
    CHECK(run(gives_up, "feed").figures->far_end < volts(12.7));
    CHECK(stops(gives_up, "feed"));
    CHECK(charged(gives_up) == Charge{});

    const Plan limited =
        make_plan(vehicle("output = \"40 A\"\ninput_limit = \"20 A\"", "length = \"2.5 m\"\nsize = \"8 AWG\""));
    const RunPlan& feed = run(limited, "feed");
    REQUIRE(feed.figures);
    CHECK(feed.figures->current == near(amperes(20), amperes(1e-9)));
    const double watts_in = 20.0 * in_volts(feed.figures->far_end);
    CHECK(limited.energy.charger.output == near(amperes(0.9 * watts_in / 14.4), amperes(0.05)));
}

TEST_CASE("a part that must be exchanged does not delete the cable before it") {
    // A charger's 40 A and more are too much for a 30 A in-line part on any cable.
    const Plan with_part =
        make_plan(vehicle("output = \"40 A\"",
                          "length = \"4 m\"\njoints = [\"lug\", \"lug\", \"two-pole plug 50 A\", \"lug\", "
                          "\"lug\"]\ninsulation = \"105 degC\""));
    const RunPlan& feed = run(with_part, "feed");
    REQUIRE(feed.taken());
    CHECK(feed.figures);
    const Plan whole = make_plan(vehicle("output = \"40 A\"", "length = \"4 m\""));
    if (feed.choice.nothing_fits()) CHECK(stops(with_part, "feed"));
    CHECK(feed.taken()->area >= run(whole, "feed").taken()->area);
}

TEST_CASE("a fridge whose run cannot feed it is off, and the trip does not hold") {
    const Plan plan = make_plan(vehicle("output = \"20 A\"", "length = \"3 m\"", "",
                                        "length = \"60 m\"\nsize = \"18 AWG\"\nreturn_size = \"18 AWG\""));
    CHECK(stops(plan, "fridge"));
    CHECK_FALSE(plan.energy.trip.holds());
    CHECK(plan.energy.trip.essential_off() > hours(24));
}

TEST_CASE("what fits nowhere is compared with its figures, and is not bought") {
    const System failing = vehicle("output = \"40 A\"", "length = \"15 m\"", "sizes = [\"12 AWG\", \"10 AWG\"]");
    const Plan plan = make_plan(failing);
    const Replan replan =
        compare(plan, make_plan(vehicle("output = \"40 A\"", "length = \"4 m\"", "sizes = [\"12 AWG\", \"4 AWG\"]")));
    for (const Changed& changed : replan.changed) {
        if (changed.about != "feed" || changed.what != Aspect::length) continue;
        CHECK(std::holds_alternative<Measure>(changed.before));
        CHECK(std::get<Measure>(changed.before) == Measure{metres(15)});
    }
    const PartsList list = parts_list(failing, plan);
    CHECK(std::any_of(list.not_listed.begin(), list.not_listed.end(), [](const PartsNote& note) {
        return in_words(note).find("run feed: no size passes; 10 AWG comes nearest") != std::string::npos;
    }));
}

TEST_CASE("a scenario through a run that was not laid is refused, not made through an ideal cable") {
    const System system = vehicle("output = \"20 A\"", "length = \"3 m\"");
    CHECK_THROWS_AS(scenario_inputs(system, {}, built_in_tables()), std::logic_error);
}

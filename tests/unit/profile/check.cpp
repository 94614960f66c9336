#include "unit/profile/reading.hpp"

#include "voltwright/planning/plan.hpp"
#include "voltwright/simulation/build_scenario.hpp"
#include "voltwright/simulation/simulate.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <functional>
#include <limits>
#include <stdexcept>
#include <vector>

/// A profile made by hand is held against the same ranges as one that was read.

namespace voltwright {

namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

using Slip = std::function<void(Profile&)>;

/// The paths of what resolve() finds wrong.
std::vector<std::string> paths_of(const Slip& slip) {
    Profile profile = testing::sound(testing::simplest);
    slip(profile);
    const auto answer = resolve(profile, built_in_tables());
    std::vector<std::string> paths;
    if (const auto* faults = std::get_if<Faults>(&answer))
        for (const Fault& fault : *faults) paths.push_back(fault.path);
    return paths;
}

}  // namespace

TEST_CASE("an amount out of its range is told once, at its key, in a profile that nobody wrote down") {
    struct Case {
        const char* path;
        Slip slip;
    };
    const std::vector<Case> cases = {
        {"run[0].length", [](Profile& p) { p.runs[0].length = Spread<Length>{metres(-6)}; }},
        {"run[2].length", [](Profile& p) { p.runs[2].length = Spread<Length>{metres(nan)}; }},
        {"battery.capacity", [](Profile& p) { p.battery.capacity = Spread<Charge>{ampere_hours(-120)}; }},
        {"battery.capacity", [](Profile& p) { p.battery.capacity = Spread<Charge>{ampere_hours(nan)}; }},
        {"trip.days", [](Profile& p) { p.trip.days = 5000; }},
        {"trip.low", [](Profile& p) { p.trip.low = Spread<Temperature>{Temperature{}}; }},
        {"battery.health", [](Profile& p) { p.battery.health = Spread<Ratio>{ratio(nan)}; }},
        {"fridge[0].rated[0].a_day",
         [](Profile& p) { p.fridges[0].rated->at(0).a_day = DailyUse{Spread<Charge>{ampere_hours(-22)}}; }},
        {"run[0].where[1].length",
         [](Profile& p) {
             const Somewhere roof = Spread<Temperature>{celsius(30)};
             p.runs[0].where =
                 Way{std::vector<WaySection>{{roof, Spread<Length>{metres(3)}}, {roof, Spread<Length>{metres(-3)}}}};
         }},
        {"fridge[0].inrush.time",
         [](Profile& p) {
             p.fridges[0].inrush = InrushKeys{Spread<Current>{amperes(20)}, Spread<Duration>{seconds(-1)}};
         }},
    };
    CHECK(paths_of([](Profile&) {}).empty());
    for (const Case& one : cases) {
        CAPTURE(one.path);
        CHECK(paths_of(one.slip) == std::vector<std::string>{one.path});
    }
}

TEST_CASE("a trip over runs of which one is not laid is refused") {
    const auto answer = resolve(testing::sound(testing::simplest), built_in_tables());
    REQUIRE(std::holds_alternative<System>(answer));
    const System& system = std::get<System>(answer);
    const Plan plan = make_plan(system);
    std::vector<LaidRun> laid = laid_runs(plan.runs);
    CHECK_NOTHROW(scenario_inputs(system, laid, built_in_tables()));
    while (!laid.empty()) {
        laid.pop_back();
        CHECK_THROWS_AS(scenario_inputs(system, laid, built_in_tables()), std::invalid_argument);
    }
}

TEST_CASE("a trip is the same over the runs of a plan that is kept and of one that is dropped") {
    const auto answer = resolve(testing::sound(testing::simplest), built_in_tables());
    REQUIRE(answer);
    const Plan plan = make_plan(*answer);
    const std::vector<LaidRun> kept = laid_runs(plan.runs), dropped = laid_runs(make_plan(*answer).runs);
    REQUIRE(kept.size() == dropped.size());
    for (std::size_t i = 0; i < kept.size(); ++i) {
        CHECK(kept[i].to == dropped[i].to);
        CHECK(kept[i].loop == dropped[i].loop);
    }
    const auto lowest = [&](const std::vector<LaidRun>& runs) {
        return simulate(trip_scenario(scenario_inputs(*answer, runs, built_in_tables()))).lowest;
    };
    CHECK(lowest(kept) == lowest(dropped));
}

}  // namespace voltwright

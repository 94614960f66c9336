#include "journeys.hpp"
#include "testing.hpp"

#include "voltwright/planning/plan.hpp"
#include "voltwright/sizing/choice.hpp"
#include "voltwright/sizing/panel_current.hpp"

#include <algorithm>

/// The currents of solar panels and their regulators, as others have printed them.

namespace voltwright {

namespace {

/// A size of the panels' cable of five panels with 3 A each, judged by insulation for 60 degC.
Candidate judged(Gauge size, Temperature around) {
    CableRun run{.name = std::string("panels"), .length = metres(1)};
    run.around = around;
    run.insulation = celsius(60);
    run.source_limit = amperes(18.75);
    Rules rules;
    rules.sizes = {size};
    const PanelLoad panels{.most_power = amperes(13.5), .short_circuit = amperes(15)};
    return choose_cable(run, panels, {volts(18), volts(18), percent(10)}, rules).ladder.front();
}

bool carries(Gauge size, Temperature around) {
    const Candidate candidate = judged(size, around);
    return std::find(candidate.fails.begin(), candidate.fails.end(), Criterion::ampacity) == candidate.fails.end();
}

std::string with_solar(const std::string& solar, const std::string& more = {}) {
    return "[trip]\ndays = 3\nlow = \"5 degC\"\nhigh = \"25 degC\"\nstart = 2026-06-10\nlatitude = \"45 deg\"\n"
           "[battery]\nchemistry = \"agm\"\ncapacity = \"200 Ah\"\nwhere = \"25 degC\"\n[charger]\noutput = \"20 A\"\n"
           "[[run]]\nto = \"charger\"\nlength = \"4 m\"\n[solar]\n" +
           solar + more;
}

const RunPlan& solar_run(const Plan& plan) {
    const auto run = std::find_if(plan.runs.begin(), plan.runs.end(),
                                  [](const RunPlan& one) { return one.task.role == RunRole::solar; });
    REQUIRE(run != plan.runs.end());
    return *run;
}

}  // namespace

// A dealer's forum of 2008, read weak: five panels of 3 A side by side are 15 A, times 1.56 makes 23.4 A.
TEST_CASE("panel current: five panels of 3 A ask for a cable of 23.4 A (a dealer's page by NEC 690.8)") {
    const PanelDesignCurrent current = panel_design_current(amperes(15));
    CHECK(current.most == near(amperes(18.75), amperes(0.005)));
    CHECK(current.table_least == near(amperes(23.4), amperes(0.05)));
}

// The same page: a cable of 20 A fails. 33 CFR 183.425 Table 5 gives 14 AWG 20 A and 12 AWG 25 A in its column for 60 degC.
TEST_CASE("panel current: for these 23.4 A a cable of 20 A fails, one of 25 A does") {
    CHECK_FALSE(carries(awg(14), celsius(30)));
    CHECK(carries(awg(12), celsius(30)));
}

// NEC 690.8(B) in a trade journal, read: 1.25 times the greatest current before any correction, once the greatest current
// after it. Of 25 A 25 A x sqrt(18/30) = 19.4 A are left at 42 degC around insulation for 60 degC: more than 18.75 A, less
// than 23.4 A.
TEST_CASE("panel current: the second 1.25 is not applied on top of the correction for heat (NEC 690.8(B))") {
    CHECK(carries(awg(12), celsius(42)));
    // 25 A x sqrt(15/30) = 17.7 A.
    CHECK_FALSE(carries(awg(12), celsius(45)));
}

// A maker's manual in a private project, read weak: regulator of 45 A, a fuse of 50 to 63 A towards the battery, cable of at
// most 16 mm2 (6 AWG).
TEST_CASE("regulator: 45 A get a fuse of 50 to 63 A and no more than 16 mm2 (a maker's manual)") {
    const Plan plan = make_plan(
        testing::system_of_text(with_solar("panel = \"580 W\"\noutput = \"45 A\"\nterminal = \"16 mm2\"\n",
                                           "[[run]]\nfrom = \"regulator\"\nto = \"battery\"\nlength = \"0.5 m\"\n")));
    const RunPlan& run = solar_run(plan);
    REQUIRE(run.to_lay());
    REQUIRE(run.to_lay()->fuses.size() == 1);
    const FuseFit& fuse = run.to_lay()->fuses.front();
    CHECK(fuse.at == the(PlaceKind::house_battery));
    CHECK(fuse.rating >= amperes(50));
    CHECK(fuse.rating <= amperes(63));
    CHECK(run.to_lay()->area <= square_millimetres(16));
}

// Plates of panels for 12 V, recalled, not read: 100 W give 5.4 to 5.6 A at their best and 5.9 to 6.1 A short-circuited,
// 21 to 23 V with nothing connected.
TEST_CASE("panel plate: 100 W without a plate are taken as such panels print it, currents not below") {
    const System system = testing::system_of_text(with_solar("panel = \"100 W\"\n"));
    REQUIRE(system.solar);
    CHECK(system.solar->most_power_current() >= amperes(5.4));
    CHECK(system.solar->most_power_current() <= amperes(5.6));
    CHECK(system.solar->short_circuit == near(amperes(6.1), amperes(0.05)));
    CHECK(system.solar->open_circuit >= volts(21));
    CHECK(system.solar->open_circuit <= volts(23.05));
}

}  // namespace voltwright

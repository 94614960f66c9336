#include "journeys.hpp"
#include "testing.hpp"

#include "voltwright/messages/assumptions.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/profile/fault.hpp"

#include <algorithm>
#include <string>

/// From the panel to its regulator and on to the battery.

namespace voltwright {

namespace {

std::string vehicle(const std::string& solar, const std::string& more = {}) {
    return "[trip]\ndays = 3\nlow = \"5 degC\"\nhigh = \"28 degC\"\nstart = 2026-06-10\nlatitude = \"45 deg\"\ndull_days = 0\n"
           "[battery]\nchemistry = \"agm\"\ncapacity = \"100 Ah\"\n[charger]\noutput = \"20 A\"\n"
           "[[run]]\nto = \"charger\"\nlength = \"5 m\"\n[[load]]\nname = \"lamp\"\ndraw = \"12 W\"\nduty = \"100 "
           "%\"\n[solar]\n" +
           solar + more;
}

Plan plan_of(const std::string& solar, const std::string& more = {}) {
    return make_plan(testing::system_of_text(vehicle(solar, more)));
}

const std::string panel_run = "[[run]]\nto = \"regulator\"\nlength = \"5 m\"\n";
const std::string regulator_run = "[[run]]\nfrom = \"regulator\"\nto = \"battery\"\nlength = \"1 m\"\n";

const RunPlan& run(const Plan& plan, RunRole role) {
    const auto found =
        std::find_if(plan.runs.begin(), plan.runs.end(), [role](const RunPlan& one) { return one.task.role == role; });
    REQUIRE(found != plan.runs.end());
    return *found;
}

bool says(const Plan& plan, std::string_view code, Level level) {
    return std::any_of(plan.findings.begin(), plan.findings.end(),
                       [&](const Finding& one) { return show(one.code) == code && one.level == level; });
}

Charge from_sun(const Plan& plan) { return plan.energy.trip.ledger.from_sun; }

}  // namespace

TEST_CASE("a panel of 200 W with its regulator plans without a stop, its two cables assumed and said") {
    const Plan plan = plan_of("panel = \"200 W\"\n");
    CHECK(plan.holds());
    const auto assumed = plan.assumed();
    CHECK(std::count(assumed.begin(), assumed.end(), "regulator") == 1);
    CHECK(std::count(assumed.begin(), assumed.end(), "solar") == 1);
    CHECK(says(plan, "assumed-runs", Level::warn));
}

TEST_CASE("the run from the regulator is fused at the battery, which alone can feed a fault in it") {
    const Plan plan = plan_of("panel = \"200 W\"\n", regulator_run);
    const RunPlan& solar = run(plan, RunRole::solar);
    REQUIRE(solar.to_lay());
    REQUIRE(solar.to_lay()->fuses.size() == 1);
    CHECK(solar.to_lay()->fuses.front().at == the(PlaceKind::house_battery));
    CHECK(plan_of("panel = \"200 W\"\n", regulator_run + "fuse = \"25 A blade\"\n").holds());
}

TEST_CASE("a regulator's cable without a fuse at the battery is a stop, with one at the regulator too") {
    for (const std::string fuse : {"fuse = \"none\"\n", "fuse = { regulator = \"25 A blade\" }\n"}) {
        CAPTURE(fuse);
        const Plan plan = plan_of("panel = \"200 W\"\n", regulator_run + fuse);
        CHECK_FALSE(plan.holds());
        CHECK(says(plan, "fuse-missing", Level::stop));
    }
}

TEST_CASE("a panel gives no more into a short than its cable bears: no fuse is due there") {
    const Plan plan = plan_of("panel = \"200 W\"\n", panel_run);
    const RunPlan& panel = run(plan, RunRole::panel);
    REQUIRE(panel.to_lay());
    CHECK(panel.to_lay()->fuses.empty());
    CHECK(panel.to_lay()->ampacity->current >= *panel.task.run.source_limit);
    REQUIRE(panel.figures);
    CHECK(panel.figures->current == near(panel.task.run.source_limit.value() * (5.5 / 6.1 / 1.25), amperes(0.1)));
}

TEST_CASE("three strings side by side want a fuse each, two do not") {
    CHECK_FALSE(says(plan_of("panel = \"200 W\"\nparallel = 2\n"), "panel-strings", Level::warn));
    CHECK(says(plan_of("panel = \"300 W\"\nparallel = 3\n"), "panel-strings", Level::warn));
}

TEST_CASE("panels one behind the other halve the current in their cable") {
    const Plan side = plan_of("panel = \"200 W\"\nparallel = 2\nshort_circuit = \"6 A\"\n");
    const Plan behind = plan_of("panel = \"200 W\"\nseries = 2\nshort_circuit = \"6 A\"\n");
    CHECK(run(side, RunRole::panel).choice.design.current == near(amperes(15), amperes(0.01)));
    CHECK(run(behind, RunRole::panel).choice.design.current == near(amperes(7.5), amperes(0.01)));
    CHECK(run(behind, RunRole::panel).taken()->area < run(side, RunRole::panel).taken()->area);
}

TEST_CASE("a regulator that only switches is stopped where the panels may push more through it than it is made for") {
    const std::string panel = "panel = \"200 W\"\nshort_circuit = \"12 A\"\nregulator = \"pwm\"\n";
    CHECK_FALSE(plan_of(panel + "output = \"10 A\"\n").holds());
    CHECK(plan_of(panel + "output = \"20 A\"\n").holds());
    // One that converts holds back by itself.
    CHECK(plan_of("panel = \"200 W\"\nshort_circuit = \"12 A\"\noutput = \"10 A\"\n").holds());
}

TEST_CASE("a cable that loses more brings less sun, and one that brings none charges nothing") {
    const std::string panel = "panel = \"60 W\"\n";
    const Charge good = from_sun(plan_of(panel, panel_run));
    const Charge thin = from_sun(
        plan_of(panel, "[[run]]\nto = \"regulator\"\nlength = \"20 m\"\nsize = \"16 AWG\"\nhave = \"cable\"\n"));
    CHECK(good > ampere_hours(5));
    CHECK(thin < 0.95 * good);
    CHECK(thin > Charge{});
    const Plan none = plan_of("panel = \"400 W\"\n",
                              "[[run]]\nto = \"regulator\"\nlength = \"100 m\"\nsize = \"18 AWG\"\nhave = \"cable\"\n");
    CHECK(from_sun(none) == Charge{});
    CHECK(says(none, "delivery", Level::stop));
}

TEST_CASE("a regulator brings no more than its output") {
    const Charge free =
        from_sun(plan_of("panel = \"300 W\"\n", "[[load]]\nname = \"pump\"\ndraw = \"8 A\"\nduty = \"100 %\"\n"));
    const Charge held = from_sun(plan_of("panel = \"300 W\"\noutput = \"5 A\"\n",
                                         "[[load]]\nname = \"pump\"\ndraw = \"8 A\"\nduty = \"100 %\"\n"));
    CHECK(held < 0.7 * free);
}

TEST_CASE("an owned cable that is too thin for a bright sun is told") {
    const Plan plan = plan_of("panel = \"800 W\"\n",
                              "[[run]]\nto = \"regulator\"\nlength = \"1 m\"\nsize = \"16 AWG\"\nhave = \"cable\"\n");
    CHECK_FALSE(plan.holds());
    CHECK((says(plan, "ampacity", Level::stop) || says(plan, "panel-ampacity", Level::stop)));
}

TEST_CASE("runs of the sun that lead elsewhere are refused with what to write") {
    const auto refused = [](const std::string& more) {
        const auto read = read_document_text("test", vehicle("panel = \"100 W\"\n", more));
        REQUIRE(std::holds_alternative<Document>(read));
        Faults faults;
        const Profile profile = read_profile(std::get<Document>(read).root, faults);
        return !faults.empty() || std::holds_alternative<Faults>(resolve(profile, built_in_tables()));
    };
    CHECK(refused("[[run]]\nfrom = \"battery\"\nto = \"regulator\"\nlength = \"1 m\"\n"));
    CHECK(refused("[[run]]\nfrom = \"panel\"\nto = \"battery\"\nlength = \"1 m\"\n"));
    CHECK(refused("[[run]]\nfrom = \"panel\"\nto = \"lamp\"\nlength = \"1 m\"\n"));
    CHECK_FALSE(
        refused("[[run]]\nfrom = \"panel\"\nto = \"gland\"\nlength = \"1 m\"\n[[run]]\nfrom = \"gland\"\nto = "
                "\"regulator\"\nlength = \"3 m\"\n"));
}

}  // namespace voltwright

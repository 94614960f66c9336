#include "findings.hpp"
#include "journeys.hpp"
#include "testing.hpp"

#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/shopping/parts.hpp"
#include "voltwright/units/literals.hpp"

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

/// One fuse on a battery's post for the branches whose blades could not break what a dead short there draws.

namespace voltwright {

using namespace literals;

namespace {

const std::string fridge = "[[run]]\nto = \"fridge\"\nlength = \"3 m\"\n";
const std::string lamps = "[[run]]\nto = \"lamps\"\nlength = \"4 m\"\n[[load]]\nname = \"lamps\"\ndraw = \"24 W\"\n";

std::string vehicle(const std::string& battery, const std::string& runs, const std::string& more = {}) {
    return "[trip]\nlow = \"14 degC\"\nhigh = \"31 degC\"\ndrives = \"08:30-10:00\"\n[battery]\nchemistry = \"agm\"\n"
           "capacity = \"120 Ah\"\n" +
           battery +
           "[charger]\noutput = \"25 A\"\n[[run]]\nto = \"charger\"\nlength = \"6 m\"\n"
           "[[run]]\nto = \"battery\"\nlength = \"1 m\"\n" +
           runs + "[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n" + more;
}

Plan plan_of(const std::string& battery, const std::string& runs = fridge, const std::string& more = {}) {
    return make_plan(testing::system_of_text(vehicle(battery, runs, more)));
}

const RunPlan* find_run(const Plan& plan, std::string_view name) {
    const auto run = std::find_if(plan.runs.begin(), plan.runs.end(),
                                  [&](const RunPlan& one) { return *one.task.run.name == name; });
    return run == plan.runs.end() ? nullptr : &*run;
}

const RunPlan& run(const Plan& plan, std::string_view name) {
    const RunPlan* found = find_run(plan, name);
    REQUIRE_MESSAGE(found, std::string(name));
    return *found;
}

const FuseFit& fuse_of(const Plan& plan, std::string_view name) {
    const Candidate* taken = run(plan, name).to_lay();
    REQUIRE(taken);
    REQUIRE(taken->fuses.size() == 1);
    return taken->fuses.front();
}

bool speaks_of_breaking(const Plan& plan, const std::string& name) {
    return std::any_of(plan.findings.begin(), plan.findings.end(), [&](const Finding& one) {
        return one.code == FindingCode::breaking_capacity &&
               std::find(one.about.names.begin(), one.about.names.end(), name) != one.about.names.end();
    });
}

}  // namespace

TEST_CASE("a fridge at 120 Ah of AGM gets one fuse on the post, a short lead, and its blade at the end of that") {
    const Plan plan = plan_of("");
    const FuseFit& main = fuse_of(plan, "main");
    CHECK(main.form == FuseForm::post);
    CHECK(main.at.kind == PlaceKind::house_battery);
    CHECK(main.rating == 30_A);
    CHECK(main.fault.expected.current < main.fault.breaking_capacity.value);
    CHECK(run(plan, "fridge").task.from == run(plan, "main").task.to);
    CHECK(fuse_of(plan, "fridge").form == FuseForm::blade);
    CHECK(fuse_of(plan, "fridge").rating == 15_A);
    // The lead from the post carries what the main fuse lets through for ever.
    CHECK(run(plan, "main").taken()->ampacity->current >= main.rating);
    CHECK_FALSE(speaks_of_breaking(plan, "fridge"));
    CHECK_FALSE(speaks_of_breaking(plan, "main"));
    CHECK(plan.assumed().empty());
}

TEST_CASE("one main fuse serves all small branches of a battery, and what has a large fuse stays at the post") {
    const Plan plan =
        plan_of("", fridge + lamps, "[inverter]\noutput = \"600 W\"\n[[run]]\nto = \"inverter\"\nlength = \"1 m\"\n");
    CHECK(served_by(plan, run(plan, "main")) == std::vector<std::string>{"fridge", "lamps"});
    CHECK(run(plan, "inverter").task.from.kind == PlaceKind::house_battery);
    CHECK(run(plan, "battery").task.run.fused_at.front().at.kind == PlaceKind::house_battery);
    // 3.8 A of the fridge and 2 A of the lamps, by Ohm's law at 12 V: both pass through it.
    CHECK(run(plan, "main").figures->current > 5.7_A);
    CHECK(fuse_of(plan, "main").rating > fuse_of(plan, "fridge").rating);
}

TEST_CASE("a battery that drives too little for a blade to fail needs no main fuse") {
    // 12.9 V through 20 mOhm are 650 A, by Ohm's law: less than a blade breaks.
    CHECK_FALSE(find_run(plan_of("internal_resistance = \"20 mOhm\"\n"), "main"));
    CHECK(find_run(plan_of("internal_resistance = \"4 mOhm\"\n"), "main"));
}

TEST_CASE("the profile may name the main fuse, own it, or want none") {
    const Plan named = plan_of("main_fuse = \"60 A post\"\n");
    CHECK(fuse_of(named, "main").rating == 60_A);
    CHECK(fuse_of(named, "main").given);
    CHECK_FALSE(fuse_of(named, "main").have);
    const Plan owned = plan_of("main_fuse = \"60 A post\"\nhave_main_fuse = true\n");
    CHECK(fuse_of(owned, "main").have);
    const PartsList list = parts_list(
        testing::system_of_text(vehicle("main_fuse = \"60 A post\"\nhave_main_fuse = true\n", fridge)), owned);
    CHECK(std::none_of(list.parts.begin(), list.parts.end(), [](const Part& part) {
        return part.kind == PartKind::fuse && part.family == "post" && part.rating == 60_A;
    }));
    const Plan none = plan_of("main_fuse = \"none\"\n");
    CHECK_FALSE(find_run(none, "main"));
    CHECK(run(none, "fridge").task.from.kind == PlaceKind::house_battery);
}

TEST_CASE("a fuse block of the profile gets the post fuse on the way to it, and no second one") {
    const Plan plan = plan_of("",
                              "[[run]]\nto = \"fuse block\"\nlength = \"0.5 m\"\n"
                              "[[run]]\nfrom = \"fuse block\"\nto = \"fridge\"\nlength = \"3 m\"\n");
    CHECK_FALSE(find_run(plan, "main"));
    CHECK(fuse_of(plan, "fuse block").form == FuseForm::post);
    CHECK(fuse_of(plan, "fridge").form == FuseForm::blade);
    CHECK_FALSE(speaks_of_breaking(plan, "fridge"));
    CHECK_FALSE(speaks_of_breaking(plan, "fuse block"));
}

TEST_CASE(
    "a thick cable to a fuse block that is there takes the post fuse; a thin one goes behind a main fuse, with a "
    "blade") {
    const auto with_size = [](const std::string& size) {
        return plan_of("", "[[run]]\nto = \"block\"\nlength = \"0.5 m\"\nsize = \"" + size +
                               "\"\nhave = \"cable\"\n[[run]]\nfrom = \"block\"\nto = \"fridge\"\nlength = \"3 m\"\n");
    };
    // 33 CFR 183.425, table 5, 105 degC: 4 AWG 160 A, 16 AWG 25 A. A post fuse is made from 30 A on.
    const Plan thick = with_size("4 AWG"), thin = with_size("16 AWG");
    CHECK_FALSE(find_run(thick, "main"));
    CHECK(fuse_of(thick, "block").form == FuseForm::post);
    CHECK(fuse_of(thin, "main").form == FuseForm::post);
    CHECK(fuse_of(thin, "block").form == FuseForm::blade);
    CHECK(run(thin, "block").task.from == run(thin, "main").task.to);
}

TEST_CASE("beside a fuse block of that name the plan calls its own otherwise") {
    const Plan plan = plan_of("", fridge +
                                      "[[run]]\nname = \"main\"\nto = \"fuse block\"\nlength = \"1 m\"\n"
                                      "[[run]]\nfrom = \"fuse block\"\nto = \"lamps\"\nlength = \"4 m\"\n"
                                      "[[load]]\nname = \"lamps\"\ndraw = \"24 W\"\n");
    CHECK(run(plan, "main 2").task.to.name == "fuse block 2");
    CHECK(run(plan, "fridge").task.from.name == "fuse block 2");
    CHECK(run(plan, "lamps").task.from.name == "fuse block");
}

TEST_CASE("a blade that is there already goes behind the main fuse, which is bought") {
    const Plan plan =
        plan_of("", fridge + "size = \"12 AWG\"\nfuse = { battery = \"15 A blade\" }\nhave = \"cable, fuse\"\n");
    CHECK(fuse_of(plan, "fridge").have);
    CHECK(fuse_of(plan, "fridge").at == run(plan, "main").task.to);
    CHECK_FALSE(fuse_of(plan, "main").have);
    CHECK_FALSE(speaks_of_breaking(plan, "fridge"));
    CHECK(plan.holds());
}

TEST_CASE("an end that is to be left bare stays at the post and stays a stop") {
    const Plan plan = plan_of("", fridge + "fuse = \"none\"\n");
    CHECK_FALSE(find_run(plan, "main"));
    CHECK_FALSE(plan.holds());
}

TEST_CASE("without a strong fuse on the shelf there is no main fuse, and the blade's weakness is told") {
    const Plan plan = plan_of("", fridge, "[rules]\nfuses = [\"15 A blade\", \"30 A blade\", \"40 A blade\"]\n");
    CHECK_FALSE(find_run(plan, "main"));
    CHECK(speaks_of_breaking(plan, "fridge"));
}

TEST_CASE("the volts lost on the way to an appliance are those of the main fuse and its lead too") {
    const Plan plan = plan_of("");
    const RunPlan &main = run(plan, "main"), &branch = run(plan, "fridge");
    REQUIRE(main.figures);
    REQUIRE(branch.figures);
    CHECK(in_volts(branch.figures->way_drop) ==
          doctest::Approx(in_volts(main.figures->drop) + in_volts(branch.figures->drop)));
    CHECK(main.figures->joint_drop > Voltage{});
    CHECK(in_amperes(main.figures->current) == doctest::Approx(in_amperes(branch.figures->current)));
}

TEST_CASE("the list has the post fuse with its holder, the block, the lead and its lugs") {
    const std::string text = vehicle("", fridge + lamps);
    const System system = testing::system_of_text(text);
    const PartsList list = parts_list(system, make_plan(system));
    const auto has = [&](PartKind kind, std::string_view what, std::string_view of) {
        return std::any_of(list.parts.begin(), list.parts.end(), [&](const Part& part) {
            return part.kind == kind && part.what == what &&
                   std::find(part.runs.begin(), part.runs.end(), of) != part.runs.end();
        });
    };
    CHECK(has(PartKind::fuse, "post fuse", "main"));
    CHECK(has(PartKind::fuse_holder, "holder on the battery post", "main"));
    CHECK(has(PartKind::fuse_block, "fuse block, 2 ways", "fridge"));
    CHECK(has(PartKind::cable, "cable", "main"));
    CHECK(has(PartKind::lug, "ring lug", "main"));
}

TEST_CASE("three fuses on one post are told before buying, two are not") {
    const auto told = [](const std::string& more) {
        const System system = testing::system_of_text(vehicle("", fridge + more));
        const std::vector<PartsNote> notes = parts_list(system, make_plan(system)).to_look;
        const auto one = std::find_if(notes.begin(), notes.end(), [](const PartsNote& note) {
            return note.code == PartsNoteCode::fuses_on_post && note.place->kind == PlaceKind::house_battery;
        });
        return one == notes.end() ? 0 : one->count;
    };
    CHECK(told("") == 0);
    CHECK(told("[inverter]\noutput = \"1000 W\"\n[[run]]\nto = \"inverter\"\nlength = \"1 m\"\n") == 3);
}

TEST_CASE("a load on the starter battery has its main fuse there") {
    const Plan plan = plan_of("", fridge,
                              "[[load]]\nname = \"horn\"\ndraw = \"10 A\"\nduty = \"1 %\"\n[[run]]\nfrom = "
                              "\"starter\"\nto = \"horn\"\nlength = \"2 m\"\n");
    CHECK(fuse_of(plan, "starter main").at.kind == PlaceKind::starter_battery);
    CHECK(run(plan, "horn").task.from == run(plan, "starter main").task.to);
}

}  // namespace voltwright

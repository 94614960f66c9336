// Fuses of whole plans: what manuals, shops and owners bring, each with what should be said of it.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/messages/assumptions.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

using namespace voltwright;

namespace {

/// A van on warm days with a charger, and what more a case has.
struct Van {
    std::string chemistry = "agm", capacity = "200 Ah", output = "25 A";
    std::string charger = {}, starter = {}, feed = {}, more = {};
};

Plan plan_of(const Van& van) {
    return make_plan(testing::system_of_text(
        "[trip]\ndays = 2\nlow = \"20 degC\"\nhigh = \"25 degC\"\ndrives = \"08:30-11:00\"\n[starter]\n" + van.starter +
        "[battery]\nchemistry = \"" + van.chemistry + "\"\ncapacity = \"" + van.capacity +
        "\"\n[charger]\noutput = \"" + van.output + "\"\n" + van.charger +
        "[[run]]\nto = \"charger\"\nlength = \"4 m\"\n" + van.feed + "[[run]]\nto = \"battery\"\nlength = \"1 m\"\n" +
        van.more));
}

const RunPlan& run(const Plan& plan, const std::string& name) {
    return *std::find_if(plan.runs.begin(), plan.runs.end(),
                         [&](const RunPlan& one) { return *one.task.run.name == name; });
}

std::string fuse_of(const Plan& plan, const std::string& name) {
    const Candidate* taken = run(plan, name).to_lay();
    if (!taken || taken->fuses.empty()) return "none";
    const FuseFit& fuse = taken->fuses.front();
    return std::to_string(static_cast<int>(in_amperes(fuse.rating))) + " A " + fuse.family;
}

const Finding* finding(const Plan& plan, FindingCode code) {
    const auto found =
        std::find_if(plan.findings.begin(), plan.findings.end(), [&](const Finding& one) { return one.code == code; });
    return found == plan.findings.end() ? nullptr : &*found;
}

std::string inverter(const std::string& watts, const std::string& keys = {}) {
    return "[inverter]\noutput = \"" + watts + "\"\n[[run]]\nto = \"inverter\"\nlength = \"1 m\"\n" + keys;
}

}  // namespace

// What manuals of such chargers print for the fuse of their input, from memory: common practice, no source.
TEST_CASE("chargers of 20 to 50 A plan with the fuse of their manuals, 30 to 80 A") {
    struct Charger {
        std::string output, fuse;
    };
    for (const Charger& one :
         {Charger{"20 A", "30 A"}, {"25 A", "40 A"}, {"30 A", "50 A"}, {"40 A", "60 A"}, {"50 A", "80 A"}}) {
        CAPTURE(one.output);
        const Plan plan = plan_of({.output = one.output, .charger = "fuse_max = \"" + one.fuse + "\"\n"});
        CHECK(plan.holds());
        CHECK(fuse_of(plan, "feed") == one.fuse + " SF30");
        // What the owner has already is judged by the same rule.
        const Plan owned = plan_of({.output = one.output,
                                    .charger = "fuse_max = \"" + one.fuse + "\"\n",
                                    .feed = "fuse = \"" + one.fuse + " SF30\"\nhave = \"fuse\"\n"});
        CHECK(owned.holds());
        CHECK((finding(plan, FindingCode::fuse_by_manual) != nullptr) ==
              (finding(owned, FindingCode::fuse_by_manual) != nullptr));
    }
    // 25 A at 14.4 V and 90 % out of 12.7 V are 31.5 A; a 40 A fuse at 61 degC carries 80 % of 0.946 of it, 30.3 A.
    const Plan small = plan_of({.charger = "fuse_max = \"40 A\"\n"});
    const Finding* blows = finding(small, FindingCode::fuse_by_manual);
    REQUIRE(blows);
    CHECK(blows->level == Level::warn);
}

// A maker's guide for 3000 W: 4/0 with 450 A. 33 CFR 183.455(c)(1) allows 150 % of Table 5.
TEST_CASE("3000 W on 4/0 take the 450 A fuse, chosen or owned, and what that rests on is said") {
    const Plan chosen = plan_of({.capacity = "400 Ah", .more = inverter("3000 W")});
    CHECK(in_amperes(run(chosen, "inverter").taken()->fuses.at(0).rating) == near(450, 1e-9));
    CHECK_FALSE(finding(chosen, FindingCode::no_fuse_fits));
    CHECK(std::any_of(chosen.assumptions.begin(), chosen.assumptions.end(),
                      [](const Assumption& one) { return one.code == AssumptionCode::fuse_next_made; }));
    const Plan owned =
        plan_of({.capacity = "400 Ah",
                 .more = inverter("3000 W", "size = \"4/0 AWG\"\nfuse = \"450 A class T\"\nhave = \"cable, fuse\"\n")});
    CHECK_FALSE(finding(owned, FindingCode::fuse_too_large));
    CHECK_FALSE(finding(owned, FindingCode::breaking_capacity));
}

TEST_CASE("a shelf without a fitting fuse is blamed as the shelf, with the fuse to buy") {
    const Plan plan = plan_of({.more = "[rules]\nfuses = [\"30 A blade\", \"40 A blade\", \"15 A blade\"]\n"});
    const Finding* none = finding(plan, FindingCode::no_fuse_fits);
    REQUIRE(none);
    const std::string to_do = remedy_in_words(*none);
    CHECK(to_do.find("rules.fuses") != std::string::npos);
    CHECK(to_do.find("50 A SF30") != std::string::npos);
    REQUIRE(none->remedy.changes.size() == 1);
    const Plan cured = plan_of({.more = "[rules]\nfuses = " + none->remedy.changes[0].value + "\n"});
    CHECK_FALSE(finding(cured, FindingCode::no_fuse_fits));
}

// A maker of inverters: "user-supplied ANL 300 A". 6 kA is what some of them are printed with, 2.5 kA others.
TEST_CASE("an owned ANL fuse is judged by what is printed on it, else by the least of its kind") {
    const auto feed = [](const std::string& keys) {
        return plan_of({.output = "60 A",
                        .starter = "cold_cranking = \"900 A\"\n",
                        .feed = "size = \"2 AWG\"\nfuse = \"100 A ANL\"\nhave = \"cable, fuse\"\n" + keys});
    };
    const Plan unknown = feed({});
    const Finding* weak = finding(unknown, FindingCode::breaking_capacity);
    REQUIRE(weak);
    CHECK(weak->level == Level::warn);
    CHECK(remedy_in_words(*weak).find("100 A post") != std::string::npos);
    CHECK_FALSE(finding(feed("breaking = \"6 kA\"\n"), FindingCode::breaking_capacity));
    // A breaker of an unknown sort is one of 900 A.
    const Plan breaker = plan_of({.output = "40 A", .feed = "fuse = \"70 A breaker\"\n"});
    const Finding* trips = finding(breaker, FindingCode::breaking_capacity);
    REQUIRE(trips);
    CHECK(trips->level == Level::stop);
    CHECK(show(*trips).find("70 A breaker at the") != std::string::npos);
}

TEST_CASE("several weak fuses are one finding, which names them all and how each is cured") {
    const std::string strip = "fuse = \"40 A SF30\"\n";
    const Plan plan = plan_of(
        {.starter = "cold_cranking = \"900 A\"\n", .feed = "fuse = \"60 A SF30\"\n", .more = inverter("300 W", strip)});
    const auto count = std::count_if(plan.findings.begin(), plan.findings.end(),
                                     [](const Finding& one) { return one.code == FindingCode::breaking_capacity; });
    CHECK(count == 1);
    const Finding* one = finding(plan, FindingCode::breaking_capacity);
    REQUIRE(one);
    CHECK(show(one->about) == "feed, inverter");
    // One change cures each, or two where the cable has to go with its fuse.
    CHECK(one->remedy.changes.size() >= 2);
}

TEST_CASE("a fuse at an end that nothing feeds is no fuse: amplifier, fridge and inverter") {
    const std::string load =
        "[[load]]\nname = \"amplifier\"\ndraw = \"30 A\"\nhours = \"18:00-18:10\"\n[[run]]\nto = "
        "\"amplifier\"\nlength = \"4 m\"\nfuse = { amplifier = \"50 A SF30\" }\n";
    const std::string fridge =
        "[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n[[run]]\nto "
        "= \"fridge\"\nlength = \"4 m\"\nfuse = { fridge = \"15 A blade\" }\n";
    for (const std::string& more : {load, fridge, inverter("1000 W", "fuse = { inverter = \"150 A SF51\" }\n")}) {
        CAPTURE(more);
        const Plan plan = plan_of({.more = more});
        CHECK(finding(plan, FindingCode::fuse_elsewhere));
        const Finding* missing = finding(plan, FindingCode::fuse_missing);
        REQUIRE(missing);
        CHECK(missing->level == Level::stop);
        // The fuse that is named is the one that the plan itself would take.
        REQUIRE(missing->remedy.changes.size() == 1);
        const std::size_t fuse = more.find("fuse = {");
        const Plan cured =
            plan_of({.more = more.substr(0, fuse) + "fuse = \"" + missing->remedy.changes[0].value + "\"\n"});
        const Plan without = plan_of({.more = more.substr(0, fuse)});
        CHECK_FALSE(finding(cured, FindingCode::fuse_missing));
        CHECK(missing->remedy.changes[0].value == fuse_of(without, *missing->about.names.begin()));
    }
}

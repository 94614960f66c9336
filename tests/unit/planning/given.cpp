// What the profile gives and what of it is there already; at which end a fuse counts; what cable of another class changes.

#include "journeys.hpp"
#include "voltwright/messages/parts.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/shopping/parts.hpp"
#include "voltwright/report/plan_text.hpp"
#include "voltwright/units/show.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

System with(const std::string& feed, const std::string& fridge = {}, const std::string& more = {}) {
    return system_of_text(
        "[trip]\nlow = \"10 degC\"\nhigh = \"31 degC\"\ndrives = \"08:00-10:00\"\n"
        "[battery]\nchemistry = \"agm\"\ncapacity = \"120 Ah\"\n[charger]\noutput = \"25 A\"\n"
        "[[run]]\nto = \"charger\"\nlength = \"6 m\"\n" +
        feed + "[[run]]\nto = \"battery\"\nlength = \"1 m\"\n[[run]]\nto = \"fridge\"\nlength = \"3 m\"\n" + fridge +
        "[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"16 Ah\" }]\n" + more);
}

const Finding* found(const Plan& plan, std::string_view code, std::string_view about) {
    const auto one = std::find_if(plan.findings.begin(), plan.findings.end(), [&](const Finding& finding) {
        return show(finding.code) == code && show(finding.about) == about;
    });
    return one == plan.findings.end() ? nullptr : &*one;
}

bool bought(const PartsList& list, PartKind kind, std::string_view run) {
    return std::any_of(list.parts.begin(), list.parts.end(), [&](const Part& part) {
        return part.kind == kind && std::find(part.runs.begin(), part.runs.end(), run) != part.runs.end();
    });
}

bool contains(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

}  // namespace

// 33 CFR 183.455(b): the protection sits at the source of power of the circuit.
TEST_CASE("a fuse at an end that no source feeds does not count: the source's end is bare, and both are said") {
    for (const bool given_size : {true, false}) {
        CAPTURE(given_size);
        const Plan plan = make_plan(
            with(std::string(given_size ? "size = \"6 AWG\"\n" : "") + "fuse = { charger = \"50 A SF30\" }\n"));
        CHECK_FALSE(plan.holds());
        const Finding* bare = found(plan, "fuse-missing", "feed");
        REQUIRE(bare);
        CHECK(bare->level == Level::stop);
        CHECK(remedy_in_words(*bare) == "Fit a 50 A SF30 fuse there.");
        const Finding* elsewhere = found(plan, "fuse-elsewhere", "feed");
        REQUIRE(elsewhere);
        CHECK(elsewhere->level == Level::warn);
        CHECK(remedy_in_words(*elsewhere) == "Move it to the starter battery: fuse = { starter = \"50 A SF30\" }.");
        CHECK(plan.runs.front().taken()->fuses.empty());
    }
    // The remedy does what it says.
    const Plan moved = make_plan(with("fuse = { starter = \"50 A SF30\" }\n"));
    CHECK(moved.holds());
    CHECK_FALSE(found(moved, "fuse-elsewhere", "feed"));
    // An appliance's own end is no better than a charger's.
    const Plan fridge = make_plan(with("", "fuse = { fridge = \"15 A blade\" }\n"));
    CHECK(found(fridge, "fuse-missing", "fridge"));
    CHECK(found(fridge, "fuse-elsewhere", "fridge"));
    // A second fuse beside the one that counts is only told.
    const Plan two = make_plan(with("fuse = { starter = \"50 A SF30\", charger = \"40 A SF30\" }\n"));
    CHECK(two.holds());
    REQUIRE(found(two, "fuse-elsewhere", "feed"));
    CHECK(found(two, "fuse-elsewhere", "feed")->level == Level::note);
    // Nothing at that end is nothing to say, and the fuse is chosen.
    const Plan none = make_plan(with("fuse = { charger = \"none\" }\n"));
    CHECK(none.holds());
    CHECK(none.runs.front().taken()->fuses.size() == 1);
    CHECK_FALSE(none.runs.front().taken()->fuses.front().given);
}

TEST_CASE("a fuse that is too small for its new place is not moved there") {
    const Plan plan = make_plan(with("fuse = { charger = \"30 A SF30\" }\n"));
    REQUIRE(found(plan, "fuse-elsewhere", "feed"));
    CHECK(contains(remedy_in_words(*found(plan, "fuse-elsewhere", "feed")), "It may stay"));
    CHECK(remedy_in_words(*found(plan, "fuse-missing", "feed")) == "Fit a 50 A SF30 fuse there.");
}

TEST_CASE("what is given is bought, what is there already is not, and a page speaks of cable and fuse by themselves") {
    struct Case {
        const char* keys;
        bool buys_cable, buys_fuse;
        const char* says;
    };
    const Case cases[] = {
        {"size = \"6 AWG\"\nfuse = \"50 A SF30\"\n", true, true,
         "size given in the profile: judged, not chosen; fuse given in the profile"},
        {"size = \"6 AWG\"\nfuse = \"50 A SF30\"\nhave = \"cable\"\n", false, true,
         "cable there already: judged, not chosen; fuse given in the profile"},
        {"size = \"6 AWG\"\nfuse = \"50 A SF30\"\nhave = \"fuse\"\n", true, false,
         "size given in the profile: judged, not chosen; fuse there already"},
        {"size = \"6 AWG\"\nfuse = \"50 A SF30\"\nhave = \"cable, fuse\"\n", false, false,
         "cable there already: judged, not chosen; fuse there already"},
        {"size = \"6 AWG\"\nhave = \"cable\"\n", false, true, "cable there already: judged, not chosen; fuse chosen"},
        {"fuse = \"50 A SF30\"\nhave = \"fuse\"\n", true, false, "decided by voltage drop; fuse there already"},
        {"fuse = \"40 A post\"\n", true, true, "decided by voltage drop; fuse given in the profile"},
    };
    for (const Case& one : cases) {
        CAPTURE(one.keys);
        const System system = with(one.keys);
        const Plan plan = make_plan(system);
        CHECK(plan.holds());
        const PartsList list = parts_list(system, plan);
        CHECK(bought(list, PartKind::cable, "feed") == one.buys_cable);
        CHECK(bought(list, PartKind::fuse, "feed") == one.buys_fuse);
        CHECK(bought(list, PartKind::fuse_holder, "feed") == one.buys_fuse);
        CHECK(bought(list, PartKind::lug, "feed"));
        CHECK(contains(plan_page(plan, Style{.width = 400}), one.says));
    }
}

TEST_CASE("a fuse alone is fixed, and the cable is chosen around it") {
    // 33 CFR 183.425, Table 5: 6 AWG of 105 degC carries 120 A at 30 degC, and less than 100 A in the heat of the engine
    // bay; 4 AWG carries 160 A.
    const Plan large = make_plan(with("fuse = \"100 A SF30\"\n"));
    CHECK(large.holds());
    CHECK(large.runs.front().taken()->size == awg(4));
    CHECK(large.runs.front().choice.decided_by == Criterion::fuse);
    // Larger than any cable bears: said of the fuse, with what would do.
    const Plan too_large = make_plan(with("fuse = \"500 A SF51\"\n"));
    REQUIRE(found(too_large, "fuse-too-large", "feed"));
    CHECK(remedy_in_words(*found(too_large, "fuse-too-large", "feed")) ==
          "A cable of 6 AWG, 105 degC with a 50 A SF30 fuse would do.");
    CHECK_FALSE(found(too_large, "no-fuse-fits", "feed"));
}

TEST_CASE("every cable on the shopping list has its class, and every size on the page") {
    const System system = with("insulation = \"90 degC\"\nreturn_size = \"4 AWG\"\n", "", "");
    const Plan plan = make_plan(system);
    for (const Part& part : parts_list(system, plan).parts)
        if (part.kind == PartKind::cable) {
            REQUIRE(part.insulation);
            CHECK(contains(in_words(part), "degC"));
        }
    const std::string page = plan_page(plan, Style{.width = 400});
    CHECK(contains(page, "6 AWG, 90 degC, and 4 AWG, 90 degC back"));
    CHECK(contains(page, "14 AWG, 105 degC"));
}

TEST_CASE("cable that is there already, and of no higher class, is not chosen again with another class") {
    const std::string keys = "size = \"2 AWG\"\nhave = \"cable\"\n";
    const Plan plan = make_plan(with(keys));
    REQUIRE(plan.other_class);  // the others are to be bought
    const auto is_feed = [](const OtherCable& one) { return one.run == "feed"; };
    CHECK(std::none_of(plan.other_class->runs.begin(), plan.other_class->runs.end(), is_feed));
    const std::string low = "insulation = \"75 degC\"\n";
    const System all_low = system_of_text(
        "[trip]\nlow = \"10 degC\"\nhigh = \"31 degC\"\ndrives = \"08:00-10:00\"\n"
        "[battery]\nchemistry = \"agm\"\ncapacity = \"120 Ah\"\n[charger]\noutput = \"25 A\"\n"
        "[[run]]\nto = \"charger\"\nlength = \"6 m\"\n" +
        low + "[[run]]\nto = \"battery\"\nlength = \"1 m\"\n" + low);
    CHECK_FALSE(make_plan(all_low).other_class);
    // A size that is fixed and to be bought is told where it does not do: 12 AWG of 75 degC, in 70 degC, carries 25 A
    // x sqrt(5/45) by the table's own correction, less than what the 25 A charger draws; of 105 degC it carries 45 A x
    // sqrt(35/75) and loses too much, which is no stop of a feed by itself.
    const Plan hot = make_plan(with("size = \"6 AWG\"\nwhere = \"72 degC\"\n"));
    REQUIRE(hot.other_class);
    const auto feed = std::find_if(hot.other_class->runs.begin(), hot.other_class->runs.end(), is_feed);
    REQUIRE(feed != hot.other_class->runs.end());
    CHECK_FALSE(feed->size);
}

TEST_CASE("no remedy lengthens the unfused way or asks for a larger fuse than a manual allows") {
    const Plan
        allowed = make_plan(with("", "", "")),
        limited = make_plan(system_of_text(
            "[trip]\nlow = \"10 degC\"\nhigh = \"31 degC\"\ndrives = \"08:00-10:00\"\n"
            "[battery]\nchemistry = \"agm\"\ncapacity = \"400 Ah\"\n[charger]\noutput = \"25 A\"\nfuse_max = \"40 A\"\n"
            "[inverter]\noutput = \"3000 W\"\n[[load]]\nname = \"kettle\"\ndraw = \"2500 W\"\nthrough = \"inverter\"\n"
            "hours = \"12:00-12:10\"\n"
            "[[run]]\nto = \"charger\"\nlength = \"6 m\"\n[[run]]\nto = \"battery\"\nlength = \"1 m\"\n"
            "[[run]]\nto = \"inverter\"\nlength = \"1 m\"\n"));
    CHECK(allowed.holds());
    for (const Finding& finding : limited.findings) {
        CAPTURE(show(finding.code));
        const std::string remedy = remedy_in_words(finding);
        CAPTURE(remedy);
        CHECK_FALSE(contains(remedy, "more cable between"));
        CHECK_FALSE(contains(remedy, "raise the limit"));
    }
    // The manual's fuse is taken, and that it may blow in the heat is told.
    const Finding* by_manual = found(limited, "fuse-by-manual", "feed");
    REQUIRE(by_manual);
    CHECK(by_manual->level == Level::warn);
}

#include "findings.hpp"
#include "journeys.hpp"
#include "testing.hpp"

#include "voltwright/files/document.hpp"
#include "voltwright/messages/assumptions.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/report/topics.hpp"
#include "voltwright/sizing/choice_description.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

/// The simplest example, planned whole, and what becomes of it when one thing in it changes.

namespace voltwright {

namespace {

using Edits = std::vector<std::pair<std::string, std::string>>;

const std::string feed_run = "to     = \"charger\"\nlength = \"6 m\"";
const std::string battery_run = "[[run]]\nto     = \"battery\"\nlength = \"1 m\"";
const std::string fridge_run = "[[run]]\nto     = \"fridge\"\nlength = \"3 m\"";

/// The simplest profile with each first text replaced by the second, and `more` at its end.
Plan plan_of(const Edits& edits = {}, const std::string& more = {}) {
    auto whole = read_document(VOLTWRIGHT_TOP_FOLDER "/examples/profiles/simplest.toml");
    REQUIRE(std::holds_alternative<Document>(whole));
    std::string text = std::get<Document>(whole).text;
    for (const auto& [old, wanted] : edits) {
        const std::size_t at = text.find(old);
        CAPTURE(old);
        REQUIRE(at != std::string::npos);
        text.replace(at, old.size(), wanted);
    }
    return make_plan(testing::system_of_text(text + "\n" + more));
}

/// The simplest plan with more lines in the feed's section.
Plan with_feed(const std::string& lines, const std::string& more = {}) {
    return plan_of({{feed_run, feed_run + "\n" + lines}}, more);
}

const RunPlan& run(const Plan& plan, std::string_view name) {
    for (const RunPlan& one : plan.runs)
        if (*one.task.run.name == name) return one;
    FAIL("no run " << std::string(name));
    return plan.runs.front();
}

const Candidate& taken(const Plan& plan, std::string_view name) {
    const Candidate* candidate = run(plan, name).taken();
    REQUIRE(candidate);
    return *candidate;
}

const Finding* finding(const Plan& plan, std::string_view code, std::string_view about) {
    for (const Finding& one : plan.findings)
        if (show(one.code) == code && show(one.about) == about) return &one;
    return nullptr;
}

bool found(const Plan& plan, Level level, std::string_view code, std::string_view about) {
    const Finding* one = finding(plan, code, about);
    return one && one->level == level;
}

bool assumes(const Plan& plan, std::string_view code, std::string_view about) {
    return std::any_of(plan.assumptions.begin(), plan.assumptions.end(),
                       [&](const Assumption& one) { return show(one.code) == code && show(one.about) == about; });
}

bool stops(const Plan& plan, std::string_view about) {
    return std::any_of(plan.findings.begin(), plan.findings.end(),
                       [&](const Finding& one) { return one.level == Level::stop && show(one.about) == about; });
}

void check_finite(const Explanation& node) {
    CAPTURE(std::string(node.words));
    if (const auto* measure = std::get_if<Measure>(&node.value))
        std::visit(
            [](const auto& quantity) {
                if constexpr (requires { quantity.value(); })
                    CHECK(std::isfinite(static_cast<double>(quantity.value())));
                else
                    CHECK(std::isfinite(static_cast<double>(quantity)));
            },
            *measure);
    for (const Explanation& part : node.parts) check_finite(part);
}

}  // namespace

TEST_CASE("the simplest profile gets three runs and a main fuse for a blade, each with a size, a fuse and its place") {
    const Plan plan = plan_of();
    REQUIRE(plan.runs.size() == 4);
    CHECK(plan.holds());
    CHECK(plan.assumed().empty());
    for (const RunPlan& one : plan.runs) {
        CAPTURE(*one.task.run.name);
        REQUIRE(one.taken());
        CHECK(one.taken()->fits());
        REQUIRE(one.taken()->fuses.size() == 1);
    }
    CHECK(taken(plan, "feed").fuses.front().at.name == "starter");
    CHECK(taken(plan, "battery").fuses.front().at.name == "battery");
    CHECK(taken(plan, "main").fuses.front().at.name == "battery");
    CHECK(taken(plan, "fridge").fuses.front().at.name == "fuse block");
}

// Common practice for a 25 A charger six metres off: 6 AWG, 50 A at the starter battery, 40 A at the house battery.
TEST_CASE("a charger of 25 A six metres off is fed by 6 AWG with 50 A at the starter and 40 A at the battery") {
    const Plan plan = plan_of();
    CHECK(taken(plan, "feed").size == awg(6));
    CHECK(taken(plan, "feed").fuses.front().rating == near(amperes(50), amperes(0.001)));
    CHECK(taken(plan, "battery").fuses.front().rating == near(amperes(40), amperes(0.001)));
}

// NEC chapter 9 table 8, 6 AWG stranded, uncoated: 0.491 ohm per 1000 ft at 75 degC (from memory); annealed copper
// falls by 0.393 % of its value at 20 degC for each kelvin (IEC 60028), so to 1/1.216 of that at 20 degC.
TEST_CASE("the cable of the feed loses what twelve metres of 6 AWG lose somewhere between 20 and 75 degC") {
    const Plan plan = plan_of();
    const DropCheck& drop = *taken(plan, "feed").drop;
    const double hot = 0.491 / 304.8 * 12.0;
    CHECK(drop.cable_drop < drop.current * ohms(hot));
    CHECK(drop.cable_drop > drop.current * ohms(hot / 1.216));
    CHECK(drop.drop > drop.cable_drop);
    CHECK(drop.drop <= volts(0.72));
}

TEST_CASE("runs that are not described are assumed one and four metres long, sized, fused and warned of") {
    const Plan plan = plan_of({{battery_run, ""}, {fridge_run, ""}});
    REQUIRE(plan.runs.size() == 4);
    const auto& battery = run(plan, "battery");
    const auto& fridge = run(plan, "fridge");
    CHECK(battery.task.assumed);
    CHECK(fridge.task.assumed);
    CHECK_FALSE(run(plan, "feed").task.assumed);
    CHECK(*battery.task.run.length == near(metres(1), millimetres(0.001)));
    CHECK(*fridge.task.run.length == near(metres(4), millimetres(0.001)));
    CHECK(taken(plan, "battery").fuses.size() == 1);
    CHECK(taken(plan, "fridge").fuses.size() == 1);
    CHECK(plan.assumed() == std::vector<std::string>{"battery", "fridge"});
    CHECK(found(plan, Level::warn, "assumed-runs", "battery, fridge"));
}

// Constant power: the current goes with the inverse of the voltage at which the charger gives up, 12.7 V and 11.0 V.
TEST_CASE("a smart alternator raises the worst current of the feed as the lowest input voltage falls") {
    const Current plain = run(plan_of(), "feed").choice.design.current;
    const Plan plan = plan_of({}, "[starter]\nalternator = \"smart\"\n");
    CHECK(run(plan, "feed").choice.design.current == near(plain * (12.7 / 11.0), amperes(0.01)));
    CHECK(assumes(plan, "smart-current", "feed"));
}

TEST_CASE("a charger woken by voltage behind a smart alternator is a stop") {
    const Edits woken = {{"output = \"25 A\"", "output = \"25 A\"\nwake = \"voltage\""}};
    const Plan plan = plan_of(woken, "[starter]\nalternator = \"smart\"\n");
    CHECK(found(plan, Level::stop, "never-sleeps", "charger"));
    CHECK_FALSE(plan.holds());
    CHECK_FALSE(finding(plan_of({}, "[starter]\nalternator = \"smart\"\n"), "never-sleeps", "charger"));
}

TEST_CASE("an owned feed that is far too thin is a stop, and the size that passes is named") {
    const Plan plan = with_feed("size = \"12 AWG\"");
    CHECK(taken(plan, "feed").size == awg(12));
    CHECK(stops(plan, "feed"));
    CHECK_FALSE(plan.holds());
    REQUIRE(finding(plan, "drop", "feed"));
    CHECK(remedy_in_words(*finding(plan, "drop", "feed")).find("6 AWG") != std::string::npos);
}

TEST_CASE("an owned feed that only loses too much is a warning, not a stop") {
    const Plan plan = with_feed("size = \"8 AWG\"", "[starter]\nlowest_running = \"14.1 V\"\n");
    CHECK(taken(plan, "feed").fails == std::vector{Criterion::drop});
    CHECK(found(plan, Level::warn, "drop", "feed"));
    CHECK_FALSE(stops(plan, "feed"));
}

TEST_CASE("an owned feed that leaves the charger too little is a stop") {
    const Plan plan = with_feed("size = \"8 AWG\"");
    CHECK(found(plan, Level::stop, "charger-starved", "feed"));
}

TEST_CASE("an end that is left without a fuse is a stop") {
    const Plan plan = with_feed("fuse = \"none\"");
    CHECK(found(plan, Level::stop, "fuse-missing", "feed"));
    CHECK_FALSE(plan.holds());
}

TEST_CASE("where no rating would be right, none is named for the end without a fuse") {
    const Plan plan = with_feed("size = \"12 AWG\"\nfuse = \"none\"");
    const Finding* missing = finding(plan, "fuse-missing", "feed");
    REQUIRE(missing);
    const FuseWindow& window = taken(plan, "feed").windows.front();
    REQUIRE(window.at_least > window.at_most);
    CHECK(remedy_in_words(*missing).find(" to ") == std::string::npos);
}

TEST_CASE("an owned fuse of 100 A on a thin cable is too large for it") {
    const Plan plan = with_feed("size = \"10 AWG\"\nfuse = \"100 A SF30\"");
    CHECK(found(plan, Level::stop, "fuse-too-large", "feed"));
    CHECK_FALSE(finding(with_feed("size = \"6 AWG\"\nfuse = \"50 A SF30\""), "fuse-too-large", "feed"));
}

TEST_CASE("an owned fuse below the current is a stop") {
    CHECK(found(with_feed("fuse = \"30 A SF30\""), Level::stop, "fuse-too-small", "feed"));
}

TEST_CASE("surroundings above the rating of the insulation are a stop") {
    const Plan plan = with_feed("where = \"70 degC\"\ninsulation = \"60 degC\"");
    CHECK(found(plan, Level::stop, "too-hot", "feed"));
    CHECK_FALSE(plan.holds());
}

TEST_CASE("the body as return is told until it is measured") {
    CHECK(assumes(with_feed("return = \"body\""), "body-return", "feed"));
    CHECK_FALSE(assumes(with_feed("return = \"4.6 mOhm\""), "body-return", "feed"));
}

TEST_CASE("a plug of 50 A under a charger of 60 A is a stop") {
    const Edits edits = {{"output = \"25 A\"", "output = \"60 A\""},
                         {feed_run, feed_run + "\njoints = [\"lug\", \"two-pole plug 50 A\", \"lug\"]"}};
    const Plan plan = plan_of(edits);
    CHECK(found(plan, Level::stop, "part-rating", "feed"));
    REQUIRE(finding(plan, "part-rating", "feed"));
    CHECK(testing::argument_of(*finding(plan, "part-rating", "feed"), "part") == "two-pole plug 50 A");
    CHECK_FALSE(finding(with_feed("joints = [\"lug\", \"two-pole plug 50 A\", \"lug\"]"), "part-rating", "feed"));
}

// Two owner's manuals of one make print 120 W, 10 A for a lighter socket; two of another 180 W, 15 A: read.
TEST_CASE("300 W and 180 W through a lighter socket are a stop, and so little as 60 W is not") {
    const auto socket = [](const std::string& watts) {
        return plan_of({},
                       "[[run]]\nto = \"air pump\"\nlength = \"3 m\"\njoints = [\"lug\", \"lighter socket\", \"lug\"]\n"
                       "[[load]]\nname = \"air pump\"\nhours = \"10:00-10:20\"\ndraw = \"" +
                           watts + " W\"\n");
    };
    for (const std::string watts : {"300", "180"}) {
        CAPTURE(watts);
        const Plan plan = socket(watts);
        CHECK(found(plan, Level::stop, "part-rating", "air pump"));
        CHECK_FALSE(finding(plan, "joint-heat", "air pump"));  // said once
    }
    CHECK_FALSE(finding(socket("60"), "part-rating", "air pump"));
}

TEST_CASE("a relay and an isolator switch, whose ratings nobody knows here, ask for one that outlasts their fuse") {
    const Plan feed = plan_of({{"output = \"25 A\"", "output = \"60 A\""},
                               {feed_run, feed_run + "\njoints = [\"lug\", \"relay\", \"lug\"]"}});
    const Finding* relay = finding(feed, "part-at-least", "feed");
    REQUIRE(relay);
    CHECK(relay->level == Level::note);
    CHECK(testing::argument_of(*relay, "part") == "relay");
    const Plan house = plan_of({},
                               "[inverter]\noutput = \"1500 W\"\n[[run]]\nto = \"inverter\"\nlength = \"1 m\"\n"
                               "joints = [\"lug\", \"isolator switch\", \"lug\"]\n");
    const Finding* isolator = finding(house, "part-at-least", "inverter");
    REQUIRE(isolator);
    // 1500 W from a battery as low as 10.4 V at an efficiency of 0.9 or less are 160 A and more.
    CHECK(std::get<Current>(*isolator->found) >= amperes(160));
    // 0.4 mOhm and 160 A make 10 W: twice what is sound.
    CHECK(found(house, Level::warn, "joint-heat", "inverter"));
    CHECK_FALSE(finding(plan_of(), "part-at-least", "feed"));
    CHECK_FALSE(finding(plan_of(), "joint-heat", "feed"));
}

// 33 CFR 183.425, Table 5, note 2: 0.6 for four to six conductors; a maker's page for boat cable prints it for any voltage.
TEST_CASE("cables that lie together loaded carry less at 12 V too") {
    const Plan alone = with_feed("size = \"4 AWG\""), bundled = with_feed("size = \"4 AWG\"\nloaded_in_bundle = 6");
    REQUIRE(alone.runs.front().taken()->ampacity);
    REQUIRE(bundled.runs.front().taken()->ampacity);
    CHECK(in_amperes(bundled.runs.front().taken()->ampacity->current) ==
          near(0.6 * in_amperes(alone.runs.front().taken()->ampacity->current), 1e-6));
}

TEST_CASE("a measured joint that makes more than 5 W is a warning") {
    const std::string joints = "\njoints = [\"lug\", \"30 mOhm\", \"lug\"]";
    CHECK(found(plan_of({{feed_run, feed_run + joints}}), Level::warn, "joint-heat", "feed"));
}

// A plug maker's chart: 37 A on 10 AWG at 75 degC around it (read). A feed for 29 A out takes a little more than that.
TEST_CASE(
    "a plug on a thin cable in a hot place is a stop with the size that cures it, and not before its chart says so") {
    const auto with_output = [](const std::string& output) {
        return plan_of({{"output = \"25 A\"", "output = \"" + output + "\""},
                        {feed_run, feed_run + "\nsize = \"10 AWG\"\nwhere = \"75 degC\"\n"
                                              "joints = [\"lug\", \"two-pole plug 50 A\", \"lug\"]"}});
    };
    const Plan plan = with_output("29 A");
    REQUIRE(finding(plan, "part-rating", "feed"));
    CHECK(found(plan, Level::stop, "part-rating", "feed"));
    CHECK(remedy_in_words(*finding(plan, "part-rating", "feed")).find("4 AWG") != std::string::npos);
    CHECK_FALSE(finding(with_output("20 A"), "part-rating", "feed"));
}

TEST_CASE("an owned blade fuse in the engine bay is warned of with what its holder may carry there") {
    const Plan plan = with_feed("fuse = \"60 A blade E\"");
    const Finding* one = finding(plan, "in-line-holder", "feed");
    REQUIRE(one);
    CHECK(one->level == Level::warn);
    REQUIRE(one->found);
    REQUIRE(one->allowed);
    // 20 A at 25 degC, from memory; in the heat of an engine bay less than that, and more than nothing.
    CHECK(std::get<Current>(*one->allowed) < amperes(17));
    CHECK(std::get<Current>(*one->allowed) > amperes(10));
    CHECK(std::get<Current>(*one->found) == run(plan, "feed").choice.design.current);
    CHECK_FALSE(finding(with_feed("fuse = \"50 A SF30\""), "in-line-holder", "feed"));
}

TEST_CASE("a return thinner than the feed behind a 30 A fuse is a stop that names the return") {
    const Edits edits = {{"output = \"25 A\"", "output = \"15 A\""},
                         {feed_run, feed_run + "\nsize = \"8 AWG\"\nreturn_size = \"16 AWG\"\nfuse = \"30 A SF30\""}};
    const Plan plan = plan_of(edits);
    CHECK(found(plan, Level::stop, "fuse-too-large", "feed"));
    REQUIRE(finding(plan, "fuse-too-large", "feed"));
    CHECK(remedy_in_words(*finding(plan, "fuse-too-large", "feed")).find("return") != std::string::npos);
    REQUIRE(finding(plan, "ampacity", "feed"));
    CHECK(testing::argument_of(*finding(plan, "ampacity", "feed"), "cable") == "its return of 16 AWG, 105 degC");
    CHECK_FALSE(plan.holds());
}

TEST_CASE("a house battery's cable without a fuse is a stop, and a charger's input needs none") {
    const Plan plan = plan_of({{battery_run, battery_run + "\nfuse = \"none\""}});
    CHECK(found(plan, Level::stop, "fuse-missing", "battery"));
    CHECK(run(plan, "feed").task.run.fused_at.size() == 1);
    CHECK(run(plan, "feed").task.run.fused_at.front().at.name == "starter");
    CHECK(run(plan, "battery").task.run.fused_at.front().at.name == "battery");
}

TEST_CASE("an owned fuse that a short at the far end of a long thin cable does not blow in time is a stop") {
    // 20 m of 16 AWG: about 0.6 ohm hot, 20 A of short; a 20 A fuse need not clear that at all.
    const Plan plan = plan_of({{fridge_run,
                                "[[run]]\nto     = \"fridge\"\nlength = \"20 m\"\nsize = \"16 AWG\"\n"
                                "fuse = \"20 A blade\""}});
    CHECK_FALSE(plan.holds());
    const bool said = finding(plan, "short-burns-on", "fridge") || finding(plan, "short-never-cleared", "fridge");
    CHECK(said);
}

TEST_CASE("an inverter without a run gets one assumed, sized and fused: the heaviest cable is never left out") {
    const Plan plan = plan_of({}, "[inverter]\noutput = \"600 W\"\n");
    const RunPlan& inverter = run(plan, "inverter");
    CHECK(inverter.task.assumed);
    CHECK(*inverter.task.run.length == near(metres(1), millimetres(0.001)));
    // 600 W at 12 V are 50 A, and more with the inverter's losses and a battery that is nearly empty.
    CHECK(inverter.choice.design.current > amperes(55));
    CHECK(plan.assumed() == std::vector<std::string>{"inverter"});
}

TEST_CASE(
    "a load without a run is taken to sit at the battery when it is small, and a warning with its current when it is "
    "not") {
    const auto load = [](const std::string& draw) {
        return plan_of({}, "[[load]]\nname = \"thing\"\nhours = \"20:00-21:00\"\ndraw = \"" + draw + "\"\n");
    };
    CHECK(assumes(load("4 A"), "no-run", "thing"));
    CHECK(assumes(load("50 W"), "no-run", "thing"));
    CHECK(found(load("40 A"), Level::warn, "no-run-heavy", "thing"));
    CHECK(found(load("0.5 ohm"), Level::warn, "no-run-heavy", "thing"));
}

TEST_CASE("a fuse block stands where the run to it ends, and so do the fuses in it") {
    const std::string block =
        "[[run]]\nfrom = \"starter\"\nto = \"box\"\nlength = \"0.5 m\"\nwhere = \"engine bay\"\n"
        "[[run]]\nfrom = \"box\"\nto = \"fan\"\nlength = \"1 m\"\n"
        "[[load]]\nname = \"fan\"\ndraw = \"18 A\"\nhours = \"20:00-21:00\"\nwhere = \"engine bay\"\n";
    const auto around = [](const Plan& plan) { return run(plan, "fan").task.run.fused_at.front().around; };
    const Plan hot = plan_of({}, block);
    CHECK(around(hot) == run(hot, "box").task.run.way.front().around);
    // Where the house battery stands is no matter of it.
    CHECK(around(plan_of({{"capacity  = \"120 Ah\"", "capacity  = \"120 Ah\"\nwhere = \"20 degC\""}}, block)) ==
          around(hot));
    // The last part of a way of several is where it ends.
    const std::string two =
        "where = [{ place = \"cabin\", length = \"0.3 m\" }, { place = \"33 degC\", length = \"0.2 m\" }]";
    std::string text = block;
    text.replace(text.find("where = \"engine bay\""), 20, two);
    CHECK(around(plan_of({}, text)) == celsius(33));
}

TEST_CASE("a trunk's fuse is never smaller than that of the compressor behind it whose start is not known") {
    const Plan plan = plan_of({{fridge_run,
                                "[[run]]\nto = \"block\"\nlength = \"2 m\"\n"
                                "[[run]]\nfrom = \"block\"\nto = \"fridge\"\nlength = \"1.5 m\"\n"}});
    CHECK(taken(plan, "fridge").fuses.front().rating == near(amperes(15), amperes(0.001)));
    CHECK(taken(plan, "block").fuses.front().rating >= taken(plan, "fridge").fuses.front().rating);
}

TEST_CASE("a branch without a fuse of its own is a stop, unless the fuse before it protects it as well") {
    const auto plug = [](const std::string& front) {
        return plan_of({{fridge_run, "[[run]]\nto = \"outlet\"\nlength = \"2 m\"\nsize = \"8 AWG\"\nfuse = \"" + front +
                                         "\"\n[[run]]\nfrom = \"outlet\"\nto = \"fridge\"\nlength = \"1.5 m\"\n"
                                         "size = \"10 AWG\"\nfuse = \"none\"\n"}});
    };
    // 15 A is the most that the fridge allows, and far less than 10 AWG carries.
    const Plan small = plug("15 A blade");
    CHECK(assumes(small, "fuse-before", "fridge"));
    CHECK_FALSE(finding(small, "fuse-missing", "fridge"));
    const Plan large = plug("40 A SF30");
    CHECK(found(large, Level::stop, "fuse-missing", "fridge"));
    // A short there goes through two metres of 8 AWG and as much back, some 8 mOhm: nothing like one at the battery's post.
    const Current at_outlet = std::get<Current>(*finding(large, "fuse-missing", "fridge")->found);
    const Plan at_post = plan_of({{fridge_run, fridge_run + "\nfuse = \"none\""}});
    const Current at_battery = std::get<Current>(*finding(at_post, "fuse-missing", "fridge")->found);
    CHECK(at_outlet < at_battery / 2.0);
    CHECK(at_outlet < volts(13) / milliohms(8));
}

TEST_CASE("where no fuse both carries and protects, no remedy sends from one rating to another and back") {
    // 12 AWG carries some 34 A in the engine's heat, and a charger of 25 A wants a fuse of 40 A and more.
    for (const char* fuse : {"60 A SF30", "30 A SF30"}) {
        CAPTURE(fuse);
        const Plan plan = with_feed(std::string("size = \"12 AWG\"\nfuse = \"") + fuse + "\"");
        REQUIRE(taken(plan, "feed").windows.front().at_least > taken(plan, "feed").windows.front().at_most);
        const Finding* large = finding(plan, "fuse-too-large", "feed");
        const Finding* small = finding(plan, "fuse-too-small", "feed");
        REQUIRE((large || small));
        const std::string remedy = remedy_in_words(*(large ? large : small));
        CHECK(remedy.find("No fuse") == 0);
        CHECK(remedy.find("Fit a fuse of at") == std::string::npos);
    }
}

TEST_CASE("where a start is what no fuse lets pass, that is said, and not that there is no rating") {
    const Plan plan = plan_of(
        {{"[[fridge]]\n", "[[fridge]]\nfuse_max = \"10 A\"\ninrush = { current = \"60 A\", time = \"0.5 s\" }\n"}});
    CHECK(found(plan, Level::stop, "no-fuse-starts", "fridge"));
    CHECK_FALSE(finding(plan, "no-fuse-fits", "fridge"));
}

TEST_CASE("a short that rests on an assumed battery says so, and the battery's own figure cures it") {
    // Of 50 Ah no more than 500 A can be counted on, which a fuse for 2.5 kW need not clear.
    const std::string inverter = "[inverter]\noutput = \"2.5 kW\"\n[[run]]\nto = \"inverter\"\nlength = \"1.5 m\"\n";
    const auto with_battery = [&](const std::string& battery) {
        return plan_of({{"chemistry = \"agm\"", "chemistry = \"lfp\"" + battery},
                        {"capacity  = \"120 Ah\"", "capacity  = \"50 Ah\""}},
                       inverter);
    };
    const Plan assumed = with_battery("");
    const Finding* burns = finding(assumed, "short-burns-on", "inverter");
    const Finding* never = finding(assumed, "short-never-cleared", "inverter");
    if (!run(assumed, "inverter").to_lay()) {
        REQUIRE((burns || never));
        CHECK(remedy_in_words(*(burns ? burns : never)).find("internal_resistance") != std::string::npos);
    } else {
        CHECK(found(assumed, Level::note, "battery-assumed", "inverter"));
    }
    const Plan known = with_battery("\ninternal_resistance = \"8 mOhm\"");
    CHECK(run(known, "inverter").to_lay());
    CHECK_FALSE(stops(known, "inverter"));
}

TEST_CASE("a post fuse, whose times nobody printed, is warned of where the short at the far end is small") {
    const Plan plan = plan_of(
        {},
        "[[run]]\nto = \"winch\"\nlength = \"19 m\"\nsize = \"10 AWG\"\nfuse = \"60 A post\"\n"
        "[[load]]\nname = \"winch\"\ndraw = \"38 A\"\nhours = \"20:00-20:10\"\n[rules]\nother_drop = \"30 %\"\n");
    const Finding* one = finding(plan, "short-time-unknown", "winch");
    REQUIRE(one);
    CHECK(one->level == Level::warn);
    // 38 m of 10 AWG alone have about 127 mOhm cold (NEC chapter 9 table 8 at 75 degC: 1.24 ohm per 1000 ft, from memory).
    CHECK(std::get<Current>(*one->found) < volts(13) / milliohms(127));
    CHECK_FALSE(finding(plan_of({},
                                "[[run]]\nto = \"winch\"\nlength = \"2 m\"\nfuse = \"60 A post\"\n"
                                "[[load]]\nname = \"winch\"\ndraw = \"38 A\"\nhours = \"20:00-20:10\"\n"),
                        "short-time-unknown", "winch"));
}

TEST_CASE("a stronger fuse is offered where it can sit and with a start that it stands, and how to write it") {
    // A bank of 600 Ah of AGM drives more through a blade fuse at its post than that breaks.
    const Edits bank = {{"chemistry = \"agm\"", "chemistry = \"agm\"\ncount = 6\nmain_fuse = \"none\""}};
    const Plan at_post = plan_of(bank);
    int spoken_of = 0;
    for (const Finding& one : at_post.findings) spoken_of += one.code == FindingCode::breaking_capacity ? 1 : 0;
    CHECK(spoken_of == 1);
    const Finding* weak = finding(at_post, "breaking-capacity", "fridge");
    REQUIRE(weak);
    CHECK(remedy_in_words(*weak).find("on the battery, in front of it") != std::string::npos);
    // The fuse of the trunk breaks it for what hangs on the block.
    const Plan at_block = plan_of({{"chemistry = \"agm\"", "chemistry = \"agm\"\ncount = 6"},
                                   {fridge_run,
                                    "[[run]]\nto = \"block\"\nlength = \"0.2 m\"\nsize = \"4 AWG\"\n"
                                    "[[run]]\nfrom = \"block\"\nto = \"fridge\"\nlength = \"3 m\"\n"}});
    CHECK_FALSE(finding(at_block, "breaking-capacity", "fridge"));
    // A given one is told what breaks it, and it is gone with that.
    const std::string feed = "to     = \"charger\"";
    const Plan given =
        plan_of({{feed, feed + "\nfuse = \"60 A SF30\""}}, "[starter]\ncold_cranking = \"900 A\"\n");
    const Finding* one = finding(given, "breaking-capacity", "feed");
    REQUIRE(one);
    CHECK(remedy_in_words(*one) == "In feed take a 50 A post fuse, which breaks 9940 A: fuse = \"50 A post\".");
}

TEST_CASE("a ladder frame as the way back is reckoned with its own ohms") {
    const Plan welded = with_feed("return = \"body\"");
    const Plan frame = with_feed("return = \"frame\"");
    const auto ohms_of = [](const Plan& plan) { return in_ohms(run(plan, "feed").task.run.body->resistance.value); };
    CHECK(ohms_of(frame) > 5.0 * ohms_of(welded));
    CHECK(found(frame, Level::warn, "body-return", "feed"));
    // 35 mOhm at some 30 A are more than a volt.
    CHECK_FALSE(run(frame, "feed").to_lay());
}

TEST_CASE("the charger's terminal is held against the thicker of the two cables") {
    const Plan plan = with_feed("size = \"6 AWG\"\nreturn_size = \"2 AWG\"", "");
    CHECK_FALSE(finding(plan, "terminal", "feed"));
    const Plan tight = plan_of({{"output = \"25 A\"", "output = \"25 A\"\nterminal = \"6 AWG\""},
                                {feed_run, feed_run + "\nsize = \"6 AWG\"\nreturn_size = \"2 AWG\""}});
    CHECK(found(tight, Level::stop, "terminal", "feed"));
}

TEST_CASE("a start that the fuse must let pass asks for a larger one, and a winch for a thicker cable") {
    const auto with_load = [](const std::string& more) {
        return plan_of(
            {}, "[[run]]\nto = \"winch\"\nlength = \"4 m\"\n[[load]]\nname = \"winch\"\ndraw = \"10 A\"\n" + more);
    };
    const Plan calm = with_load("");
    const Plan kicks = with_load("inrush = { current = \"60 A\", time = \"0.5 s\" }\n");
    const Plan pulls = with_load("inrush = { current = \"180 A\", time = \"30 s\" }\n");
    CHECK(taken(kicks, "winch").fuses.front().rating > taken(calm, "winch").fuses.front().rating);
    CHECK(taken(pulls, "winch").area > taken(calm, "winch").area);
    CHECK(taken(pulls, "winch").fuses.front().rating >= amperes(120));
    REQUIRE(taken(pulls, "winch").start);
    CHECK(taken(pulls, "winch").start->holds());
}

TEST_CASE("what cannot be on together is not added, and what can is") {
    const auto trunk = [](const std::string& first, const std::string& second) {
        const Plan plan = plan_of({},
                                  "[[run]]\nto = \"block\"\nlength = \"2 m\"\n"
                                  "[[run]]\nto = \"a\"\nfrom = \"block\"\nlength = \"1 m\"\n"
                                  "[[run]]\nto = \"b\"\nfrom = \"block\"\nlength = \"1 m\"\n"
                                  "[[load]]\nname = \"a\"\ndraw = \"4 A\"\nhours = \"" +
                                      first +
                                      "\"\n"
                                      "[[load]]\nname = \"b\"\ndraw = \"6 A\"\nhours = \"" +
                                      second + "\"\n");
        return in_amperes(run(plan, "block").choice.design.current);
    };
    CHECK(trunk("08:00-10:00", "10:00-12:00") == near(6.0, 1e-9));
    CHECK(trunk("08:00-10:00", "09:00-12:00") == near(10.0, 1e-9));
    CHECK(trunk("22:00-02:00", "01:00-03:00") == near(10.0, 1e-9));
}

TEST_CASE("fuses in series that both may blow are told, and none where the one behind is quicker") {
    const std::string block =
        "[[run]]\nto = \"block\"\nlength = \"2 m\"\nfuse = \"FRONT\"\n"
        "[[run]]\nto = \"a\"\nfrom = \"block\"\nlength = \"1 m\"\n"
        "[[load]]\nname = \"a\"\ndraw = \"4 A\"\n";
    const auto with_front = [&](const std::string& fuse) {
        std::string text = block;
        text.replace(text.find("FRONT"), 5, fuse);
        return plan_of({}, text);
    };
    CHECK(assumes(with_front("7.5 A blade"), "selectivity", "a"));
    CHECK_FALSE(assumes(with_front("60 A SF51"), "selectivity", "a"));
}

TEST_CASE("a shelf of two sizes gives nothing but those two") {
    const Plan plan = plan_of({}, "[rules]\nsizes = [\"4 AWG\", \"10 AWG\"]\n");
    CHECK(taken(plan, "feed").size == awg(4));
    for (const RunPlan& one : plan.runs) {
        REQUIRE(one.taken());
        CHECK((one.taken()->size == awg(4) || one.taken()->size == awg(10)));
    }
}

TEST_CASE("a shelf of fuses gives nothing but those") {
    const Plan plan = plan_of({}, "[rules]\nfuses = [\"60 A SF30\", \"15 A blade\"]\n");
    CHECK(taken(plan, "feed").fuses.front().rating == near(amperes(60), amperes(0.001)));
    CHECK(taken(plan, "fridge").fuses.front().rating == near(amperes(15), amperes(0.001)));
}

// 6 AWG is 13.3 mm2; the next size of IEC 60228 above it is 16 mm2.
TEST_CASE("metric sizes give 16 square millimetres for the feed") {
    CHECK(taken(plan_of({}, "[rules]\nsizes = \"metric\"\n"), "feed").size == metric(16));
}

TEST_CASE("every fuse lies between what the current needs and what the cable may carry") {
    const Plan plans[] = {plan_of(), plan_of({}, "[starter]\nalternator = \"smart\"\n"),
                          plan_of({}, "[rules]\nsizes = \"metric\"\n"),
                          plan_of({{"output = \"25 A\"", "output = \"60 A\""}}), with_feed("return = \"4.6 mOhm\"")};
    for (const Plan& plan : plans)
        for (const RunPlan& one : plan.runs) {
            CAPTURE(*one.task.run.name);
            REQUIRE(one.taken());
            for (const FuseFit& fuse : one.taken()->fuses) {
                const FuseEnd& end = one.task.run.fused_at.front();
                const double above = in_kelvins(end.around - celsius(25));
                const double kept = 1.0 - above * fuse.window.rerating_per_kelvin.value();
                CHECK(fuse.rating * 0.8 * kept >= one.choice.design.current * (1.0 - 1e-9));
                CHECK(fuse.rating <= one.taken()->ampacity->current);
            }
        }
}

TEST_CASE("the findings come with stops first, then warnings, then notes") {
    const Plan plan = with_feed("return = \"body\"\nfuse = \"none\"", "[starter]\nalternator = \"smart\"\n");
    CHECK(std::is_sorted(plan.findings.begin(), plan.findings.end(),
                         [](const Finding& a, const Finding& b) { return a.level < b.level; }));
    CHECK(plan.findings.front().level == Level::stop);
    CHECK(plan.findings.back().level == Level::note);
}

TEST_CASE("every topic of a plan is explained, in finite numbers") {
    const Plan plans[] = {
        plan_of(), with_feed("size = \"16 AWG\""), with_feed("where = \"70 degC\"\ninsulation = \"60 degC\""),
        plan_of({{"length = \"6 m\"", "length = \"100 m\""}, {"output = \"25 A\"", "output = \"300 A\""}})};
    for (const Plan& plan : plans) {
        CHECK_FALSE(topics(plan).empty());
        for (const Topic& topic : topics(plan)) {
            CAPTURE(topic.name);
            const auto explained = explain_topic(plan, topic.name);
            REQUIRE(explained);
            check_finite(*explained);
        }
        for (const RunPlan& one : plan.runs)
            for (const Candidate& candidate : one.choice.ladder) check_finite(explain(candidate));
    }
    CHECK_FALSE(explain_topic(plans[0], "feed.colour"));
    CHECK_FALSE(explain_topic(plans[0], "nobody.drop"));
}

TEST_CASE("what starts behind a trunk starts through the trunk's fuse too, on top of all else that is on") {
    const std::string block =
        "[[run]]\nto = \"block\"\nlength = \"1 m\"\n[[run]]\nfrom = \"block\"\nto = \"winch\"\nlength = \"1 m\"\n"
        "[[run]]\nfrom = \"block\"\nto = \"lamp\"\nlength = \"1 m\"\n"
        "[[load]]\nname = \"lamp\"\ndraw = \"5 A\"\n"
        "[[load]]\nname = \"winch\"\ndraw = \"10 A\"\nhours = \"18:00-19:00\"\n";
    const Plan mild = plan_of({}, block);
    const Plan hard = plan_of({}, block + "inrush = { current = \"90 A\", time = \"1 s\" }\n");
    REQUIRE(run(hard, "block").task.run.starting.size() == 1);
    CHECK(in_amperes(run(hard, "block").task.run.starting[0].current) == doctest::Approx(95.0));
    CHECK(in_amperes(run(hard, "winch").task.run.starting[0].current) == doctest::Approx(90.0));
    CHECK(taken(hard, "block").fuses[0].rating > taken(mild, "block").fuses[0].rating);
}

}  // namespace voltwright

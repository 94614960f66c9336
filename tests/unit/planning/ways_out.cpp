#include "journeys.hpp"
#include "voltwright/messages/arguments.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"

#include <algorithm>
#include <string>
#include <string_view>

/// Where no size of the shop passes, and where what is there has to go: what cures it, with its amounts.

namespace voltwright {

namespace {

Plan plan_of(const std::string& feed, const std::string& rules = {}) {
    return make_plan(testing::system_of_text(
        "[trip]\nlow = \"10 degC\"\nhigh = \"31 degC\"\ndrives = \"08:00-10:00\"\n"
        "[battery]\nchemistry = \"agm\"\ncapacity = \"200 Ah\"\n[charger]\noutput = \"25 A\"\n[rules]\n" +
        rules + "[[run]]\nto = \"charger\"\n" + feed + "[[run]]\nto = \"battery\"\nlength = \"1 m\"\n"));
}

/// The first stop of the feed.
const Finding& stop_of_feed(const Plan& plan) {
    const auto one = std::find_if(plan.findings.begin(), plan.findings.end(), [](const Finding& finding) {
        return finding.stops() && show(finding.about) == "feed";
    });
    REQUIRE(one != plan.findings.end());
    return *one;
}

std::string value_of(const Finding& finding, std::string_view key) {
    for (const Change& change : finding.remedy.changes)
        if (change.key == key) return change.value;
    return "(none)";
}

}  // namespace

TEST_CASE("a return of 400 mOhm is cured by a cable back, whose size is named") {
    const Finding told = stop_of_feed(plan_of("length = \"4 m\"\nreturn = \"400 mOhm\"\n"));
    CHECK(value_of(told, "run.feed.return") == "cable");
    CHECK(remedy_in_words(told).find("Lay a cable back") != std::string::npos);
    CHECK(remedy_in_words(told).find("AWG, 105 degC out and back") != std::string::npos);
}

TEST_CASE("a shop of two thin sizes is blamed as the shop, and the size that would do is named") {
    const Plan narrow = plan_of("length = \"9 m\"\n", "sizes = [\"12 AWG\", \"10 AWG\"]\n");
    const Finding told = stop_of_feed(narrow);
    CAPTURE(show(told));
    CAPTURE(remedy_in_words(told));
    CHECK(remedy_in_words(told).find("rules.sizes") != std::string::npos);
    const std::string sizes = value_of(told, "rules.sizes");
    CHECK(sizes == "awg");
    CHECK(plan_of("length = \"9 m\"\n", "sizes = \"awg\"\n").holds());
}

TEST_CASE("where the thickest cable loses too much the length that would do is named") {
    const Finding told = stop_of_feed(plan_of("length = \"100 m\"\n"));
    REQUIRE_FALSE(told.remedy.steps.empty());
    const Argument* named = find_argument(told.remedy.steps.front().arguments, "length");
    REQUIRE(named);
    const std::string length = in_words(named->value);
    CAPTURE(length);
    CHECK(remedy_in_words(told).find("allow more drop") == std::string::npos);
    const Plan shorter = plan_of("length = \"" + length + "\"\n");
    CHECK(shorter.holds());
}

TEST_CASE("a cable that is exchanged is there no more, and the new one is bought") {
    const Finding told = stop_of_feed(plan_of("length = \"6 m\"\nsize = \"16 AWG\"\nhave = \"cable\"\n"));
    CHECK(value_of(told, "run.feed.have") == "nothing");
    // The fuse alone is there still where the cable alone goes.
    const Plan both = plan_of("length = \"6 m\"\nsize = \"10 AWG\"\nfuse = \"50 A SF30\"\nhave = \"cable, fuse\"\n");
    const Finding cable = stop_of_feed(both);
    if (value_of(cable, "run.feed.fuse") == "(none)") CHECK(value_of(cable, "run.feed.have") == "fuse");
}

}  // namespace voltwright

// What a plan says asks for something: over 300 vehicles drawn at random, hardly a finding that does not.

#include "dice.hpp"
#include "journeys.hpp"
#include "voltwright/messages/assumptions.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"

#include <doctest/doctest.h>

#include <map>
#include <set>
#include <string>
#include <tuple>
#include <vector>

using namespace voltwright;

namespace {

using testing::Dice;

std::string quoted(const std::string& text) { return "\"" + text + "\""; }

/// A vehicle as a careless owner describes it: half of what could be said is left out.
std::string vehicle(unsigned seed) {
    Dice dice(seed);
    const auto one_of = [&](const std::vector<std::string>& all) { return dice.one_of(all); };
    const auto chance = [&](int percents) { return dice.whole(1, 100) <= percents; };
    const int low = dice.whole(-20, 22);
    std::string text = "[trip]\ndays = " + one_of({"1", "2", "3", "5"}) + "\nlow = \"" + std::to_string(low) +
                       " degC\"\nhigh = \"" + std::to_string(low + dice.whole(4, 18)) + " degC\"\ndrives = " +
                       one_of({"\"08:30-10:00\"", "[\"07:00-08:00\", \"16:00-17:30\"]", "\"09:00-15:00\""}) +
                       "\n[starter]\n";
    if (chance(40)) text += "alternator = \"smart\"\n";
    if (chance(50)) text += "cold_cranking = \"650 A\"\n";
    text += "[battery]\nchemistry = " + quoted(one_of({"agm", "flooded", "gel", "lfp"})) +
            "\ncapacity = " + quoted(one_of({"80 Ah", "100 Ah", "120 Ah", "200 Ah"})) + "\n";
    text += "[charger]\noutput = " + quoted(one_of({"18 A", "20 A", "25 A", "30 A", "40 A"})) + "\n[rules]\n";
    if (chance(30)) text += "sizes = \"metric\"\n";
    const auto run = [&](const std::string& to, const std::string& from) {
        text += "[[run]]\nto = " + quoted(to) + "\nlength = " + quoted(one_of({"0.6 m", "1 m", "2 m", "3 m", "6 m"})) +
                "\n";
        if (!from.empty()) text += "from = " + quoted(from) + "\n";
        if (chance(10)) text += "return = \"body\"\n";
    };
    std::vector<std::string> fed;
    const bool fridge = chance(80);
    if (fridge) fed.push_back("fridge");
    const int loads = dice.whole(0, 4);
    for (int i = 0; i < loads; ++i) fed.push_back("load " + std::to_string(i));
    run("charger", "");
    if (chance(80)) run("battery", "");
    const bool block = !fed.empty() && chance(50);
    if (block) run("block", "");
    for (std::size_t i = 0; i < fed.size(); ++i)
        if ((block && i == 0) || chance(85)) run(fed[i], block && (i == 0 || chance(70)) ? "block" : "");
    if (fridge)
        text += "[[fridge]]\ndraw = " + quoted(one_of({"35 W", "45 W", "60 W"})) +
                "\nrated = [{ around = \"25 degC\", a_day = " + quoted(one_of({"14 Ah", "22 Ah"})) + " }]\n";
    for (int i = 0; i < loads; ++i)
        text += "[[load]]\nname = \"load " + std::to_string(i) +
                "\"\ndraw = " + quoted(one_of({"5 W", "24 W", "60 W", "2 A", "8 A", "120 W"})) +
                "\nhours = \"18:00-22:00\"\n";
    return text;
}

/// Whether a person who reads it has something to do, or to change about what was planned to be done.
bool asks_for_something(const Finding& finding) {
    const std::string to_do = remedy_in_words(finding);
    return !to_do.empty() && to_do.find("Nothing to do") == std::string::npos;
}

}  // namespace

TEST_CASE("of what 300 plans find at most one thing in twenty asks for nothing") {
    std::map<std::string, int> counts;
    int all = 0, idle = 0;
    for (unsigned seed = 1; seed <= 300; ++seed) {
        const Plan plan = make_plan(testing::system_of_text(vehicle(seed)));
        for (const Finding& finding : plan.findings) {
            ++all;
            if (asks_for_something(finding)) continue;
            ++idle;
            ++counts[std::string(show(finding.code))];
        }
    }
    for (const auto& [code, count] : counts) MESSAGE(code << ": " << count);
    CHECK(all > 300);
    CHECK(20 * idle <= all);
}

TEST_CASE("what is assumed of several runs is said once, and never beside a finding of the same name") {
    for (unsigned seed = 1; seed <= 300; ++seed) {
        const std::string text = vehicle(seed);
        CAPTURE(text);
        const Plan plan = make_plan(testing::system_of_text(text));
        std::set<std::string> words;
        std::set<std::tuple<std::string, std::string>> told;
        for (const Finding& finding : plan.findings)
            for (const std::string& name : finding.about.names) told.insert({std::string(show(finding.code)), name});
        for (const Assumption& assumption : plan.assumptions) {
            std::string said = show(assumption);
            CHECK(said.ends_with("."));
            CHECK_FALSE(assumption.source.id.empty());
            const std::string about = show(assumption.about);
            if (said.starts_with(about)) said.erase(0, about.size());
            CAPTURE(said);
            CHECK(words.insert(said).second);
            for (const std::string& name : assumption.about.names)
                CHECK_FALSE(told.count({std::string(show(assumption.code)), name}));
        }
    }
}

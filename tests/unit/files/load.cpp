#include "unit/profile/reading.hpp"

#include "voltwright/files/load.hpp"

#include <string>
#include <vector>

namespace voltwright {

namespace {

std::string told(const Result<LoadedSystem, Diagnostics>& loaded) {
    if (loaded) return "loaded";
    std::string lines;
    for (const Diagnostic& diagnostic : loaded.wrong())
        lines += std::to_string(diagnostic.place.line) + " " + diagnostic.said + ": " + diagnostic.what + "\n";
    return lines;
}

}  // namespace

TEST_CASE("a profile is loaded with what is changed in it") {
    const std::vector<std::string> changes = {"trip.days = 5", "battery.capacity=80 Ah", "trip.days=7"};
    const auto loaded = load_system_text("test", testing::simplest, changes);
    REQUIRE(told(loaded) == "loaded");
    CHECK(loaded->given.trip.days == 7);
    CHECK(loaded->given.battery.capacity->value == ampere_hours(80));
    CHECK(loaded->document.name == "test");
    CHECK(!loaded->system.runs.empty());
}

TEST_CASE("what cannot be read and what does not fit together is told at once, what only follows is not") {
    std::string text = testing::simplest;
    text.replace(text.find("\"6 m\""), 5, "\"6 V\"");
    text.replace(text.find("\"14 degC\""), 9, "\"40 degC\"");
    CHECK(told(load_system_text("test", text)) ==
          "5 : the night's low is 40 degC, which is not below the day's high, 31 degC\n"
          "18 : this is a voltage; a length is wanted\n");
}

TEST_CASE("a change that cannot be made is told with its own words, before the rest") {
    const std::vector<std::string> changes = {"trip.dys=5", "=5", "trip.low=40 degC"};
    CHECK(told(load_system_text("test", testing::simplest, changes)) ==
          "0 --set trip.dys=5: there is no key `dys`\n"
          "0 --set =5: a key and its value are wanted\n");
    const std::vector<std::string> contradiction = {"trip.low=40 degC"};
    CHECK(told(load_system_text("test", testing::simplest, contradiction)) ==
          "0 --set trip.low=40 degC: the night's low is 40 degC, which is not below the day's high, 31 degC\n");
}

TEST_CASE("a file that is not there is one diagnostic; a result tells what it holds") {
    const auto none = load_system("no/such/profile.toml");
    CHECK(!none);
    REQUIRE(none.wrong().size() == 1);
    CHECK(none.wrong()[0].what == "there is no such file");
    CHECK_THROWS_AS((void)none->given, std::bad_variant_access);
    CHECK_THROWS_AS((void)load_system_text("test", testing::simplest).wrong(), std::bad_variant_access);
}

}  // namespace voltwright

#include "unit/profile/reading.hpp"

#include "voltwright/files/document.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/report/diagnostics.hpp"
#include "voltwright/report/listing.hpp"
#include "voltwright/report/plan_json.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <utility>
#include <vector>

/// An empty text, where a value is due, is a value that nobody has filled in yet.

namespace voltwright {

namespace {

using testing::faults_of;
using testing::simplest;

std::string replaced(std::string text, std::string_view old, std::string_view fresh) {
    const std::size_t at = text.find(old);
    REQUIRE(at != std::string::npos);
    return text.replace(at, old.size(), fresh);
}

std::string json_of(const Profile& profile) {
    const auto system = resolve(profile, built_in_tables());
    REQUIRE(std::holds_alternative<System>(system));
    return plan_json(make_plan(std::get<System>(system)));
}

}  // namespace

TEST_CASE("an empty text is asked for by the key's name, and is no wrong value") {
    struct Case {
        const char *old, *fresh, *path, *what;
    };
    const Case cases[] = {
        {"\"120 Ah\"", "\"\"", "battery.capacity", "`battery.capacity` is not filled in: Ah, printed on the battery"},
        {"\"120 Ah\"", "\" \\t\"", "battery.capacity",
         "`battery.capacity` is not filled in: Ah, printed on the battery"},
        {"\"agm\"", "\"\"", "battery.chemistry", "`battery.chemistry` is not filled in: "},
        {"days   = 3", "days = \"\"", "trip.days", "`trip.days` is not filled in: "},
        {"\"08:30-10:00\"", "\"\"", "trip.drives", "`trip.drives` is not filled in: "},
        {"\"08:30-10:00\"", "[\"08:30-10:00\", \"\"]", "trip.drives[1]", "`trip.drives` is not filled in: "},
        {"\"6 m\"", "\"\"", "run[0].length", "`run.feed.length` is not filled in: "},
        {"\"3 m\"", "\"\"", "run[2].length", "`run.fridge.length` is not filled in: "},
        {"\"22 Ah\"", "\"\"", "fridge[0].rated[0].a_day", "`fridge.rated.a_day` is not filled in: "},
        {"draw  = \"45 W\"", "draw = \"45 W\"\nessential = \"\"", "fridge[0].essential", "`fridge.essential` is not"},
        {"\"6 m\"", "\"6 m\"\nfuse = { starter = \"\" }", "run[0].fuse.starter", "`run.feed.fuse` is not filled in: "},
        {"\"6 m\"", "\"6 m\"\nwhere = [{ place = \"\", length = \"2 m\" }]", "run[0].where[0].place",
         "`run.where.place` is"},
        {"[trip]", "title = \"\"\n[trip]", "title", "`title` is not filled in: "},
    };
    for (const Case& one : cases) {
        CAPTURE(one.path);
        const Faults faults = faults_of(replaced(simplest, one.old, one.fresh));
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].path == one.path);
        CHECK(faults[0].what.rfind(one.what, 0) == 0);
        CHECK(!faults[0].hint.empty());
    }
    // What has a default may also go.
    CHECK(faults_of(replaced(simplest, "[trip]", "title = \"\"\n[trip]"))[0].hint.find("or leave the line out") !=
          std::string::npos);
    CHECK(faults_of(replaced(simplest, "\"6 m\"", "\"\""))[0].hint.find("leave") == std::string::npos);
}

TEST_CASE("a new profile asks for every blank at once, each at its place, and for nothing else") {
    const std::string text = new_profile(built_in_tables());
    auto read = read_document_text("new", text);
    REQUIRE(std::holds_alternative<Document>(read));
    const Document& document = std::get<Document>(read);
    Faults faults;
    (void)read_profile(document.root, faults);
    std::set<std::string> paths;
    for (const Fault& fault : faults) {
        CHECK(fault.what.find("is not filled in: ") != std::string::npos);
        paths.insert(fault.path);
    }
    CHECK(paths == std::set<std::string>{"trip.days", "trip.low", "trip.high", "trip.drives", "battery.chemistry",
                                         "battery.capacity", "charger.output", "run[0].length", "run[1].length",
                                         "run[2].length", "fridge[0].draw", "fridge[0].rated[0].around",
                                         "fridge[0].rated[0].a_day"});
    CHECK(faults.size() == paths.size());
    int last = 0;
    for (const Diagnostic& one : locate(document, faults)) {
        CHECK(one.line.find("\"\"") != std::string::npos);
        CHECK(one.place.line >= last);
        last = one.place.line;
    }
}

TEST_CASE("a new profile, its blanks filled in with the values of the simplest, is the simplest") {
    std::string text = new_profile(built_in_tables());
    const std::pair<std::string, std::vector<std::string>> values[] = {
        {"days", {"3"}},
        {"low", {"\"14 degC\""}},
        {"high", {"\"31 degC\""}},
        {"drives", {"\"08:30-10:00\""}},
        {"chemistry", {"\"agm\""}},
        {"capacity", {"\"120 Ah\""}},
        {"output", {"\"25 A\""}},
        {"length", {"\"6 m\"", "\"1 m\"", "\"3 m\""}},
        {"draw", {"\"45 W\""}},
    };
    for (const auto& [key, all] : values)
        for (const std::string& value : all) text = replaced(text, "\n" + key + " = \"\"", "\n" + key + " = " + value);
    text = replaced(text, "around = \"\"", "around = \"25 degC\"");
    text = replaced(text, "a_day = \"\"", "a_day = \"22 Ah\"");
    CHECK(json_of(testing::sound(text)) == json_of(testing::sound(simplest)));
}

}  // namespace voltwright

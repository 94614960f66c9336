#include "unit/profile/reading.hpp"

#include "voltwright/profile/override.hpp"

namespace voltwright {

namespace {

using testing::simplest;
using testing::tree;

Entry text(std::string words) {
    Entry entry;
    entry.content = std::move(words);
    return entry;
}

Entry whole(std::int64_t number) {
    Entry entry;
    entry.content = number;
    return entry;
}

std::string text_at(const Entry& root, std::string_view path) {
    const Entry& entry = nearest(root, path);
    return entry.text() ? *entry.text() : std::string(kind_of(entry));
}

}  // namespace

TEST_CASE("the entry at a path is found, or the nearest one around it") {
    const Entry root = tree(simplest + "[[load]]\nname = \"pump\"\ndraw = \"3 A\"\n[[load]]\n\"a.b\" = 1\n");
    CHECK(text_at(root, "run[1].to") == "battery");
    CHECK(text_at(root, "fridge[0].rated[0].a_day") == "22 Ah");
    CHECK(text_at(root, "run[1].name") == "a table of keys");
    CHECK(nearest(root, "run[1].name").place.line == nearest(root, "run[1]").place.line);
    CHECK(&nearest(root, "run[9].name") == root.find("run"));
    CHECK(&nearest(root, "solar.panel") == &root);
    CHECK(&nearest(root, "") == &root);
    CHECK(&nearest(root, "run[").content == &root.find("run")->content);
    CHECK(text_at(root, "load[1].a.b") == "a whole number");
    CHECK(text_at(root, "trip.low.deeper[3]") == "14 degC");
}

TEST_CASE("a value is set where users say") {
    struct Case {
        std::string_view said, place;
    };
    for (const Case& one : {Case{"title", "title"},
                            {"trip.days", "trip.days"},
                            {"run.feed.length", "run[0].length"},
                            {"run.FEED.length", "run[0].length"},
                            {"run.battery.name", "run[1].name"},
                            {"fridge.draw", "fridge[0].draw"},
                            {"fridge.fridge.draw", "fridge[0].draw"},
                            {"fridge.rated.a_day", "fridge[0].rated[0].a_day"},
                            {"fridge.inrush.current", "fridge[0].inrush.current"},
                            {"solar.panel", "solar.panel"},
                            {"meter.voltage", "meter.voltage"},
                            {"run.feed.fuse.starter", "run[0].fuse.starter"}}) {
        CAPTURE(one.said);
        Entry root = tree(simplest), value = text("new");
        value.said = "--set it";
        CHECK(!set(root, one.said, value));
        CHECK(text_at(root, one.place) == "new");
        CHECK(nearest(root, one.place).said == "--set it");
    }
}

TEST_CASE("what was said goes for everything in the value that was set, and in the section made for it") {
    const Entry rated = tree("rated = [{ around = \"30 degC\" }]");
    Entry root = tree(simplest), value = *rated.find("rated");
    value.said = "--set fridge.rated=…";
    REQUIRE(!set(root, "fridge.rated", value));
    CHECK(nearest(root, "fridge[0].rated[0].around").said == "--set fridge.rated=…");
    value = text("80 W");
    value.said = "--set solar.panel=80 W";
    REQUIRE(!set(root, "solar.panel", value));
    CHECK(root.find("solar")->said == "--set solar.panel=80 W");
}

TEST_CASE("names with points and blanks, days by what is in `on`, readings by their place") {
    const std::string more = R"(
[[run]]
to = "block 1.5"
length = "2 m"
[[load]]
name = "pump"
draw = "3 A"
[[load]]
name = "water pump"
draw = "4 A"
[[day]]
on = "2-3"
[[day]]
on = [1]
[[reading]]
across = "battery"
[[reading]]
across = "starter"
)";
    struct Case {
        std::string_view said, place;
    };
    for (const Case& one : {Case{"run.block 1.5.length", "run[3].length"},
                            {"load.water pump.draw", "load[1].draw"},
                            {"load.pump.draw", "load[0].draw"},
                            {"day.2-3.low", "day[0].low"},
                            {"day.1.low", "day[1].low"},
                            {"reading.2.voltage", "reading[1].voltage"}}) {
        CAPTURE(one.said);
        Entry root = tree(simplest + more);
        CHECK(!set(root, one.said, text("new")));
        CHECK(text_at(root, one.place) == "new");
    }
}

TEST_CASE("a path that leads nowhere is explained, and nothing is changed") {
    struct Case {
        std::string_view said, what, hint;
    };
    for (const Case& one : {
             Case{"runs.feed.length", "a profile has no section `runs`", "did you mean `run.feed.length`?"},
             {"trip", "`trip` is a section; one of its keys is wanted",
              "such as `trip.days`; its keys are days, low, high, drives, start, latitude, clearness, dull_days"},
             {"trip.dais", "there is no key `dais`", "did you mean `days`?"},
             {"run.fed.length", "there is no [[run]] called `fed`", "did you mean `run.feed.length`?"},
             {"run.kitchen.length", "there is no [[run]] called `kitchen`", "there are feed, battery, fridge"},
             {"run.length", "there are 3 of [[run]]; which one is meant is wanted",
              "one of feed, battery, fridge, such as `run.feed.length`"},
             {"run.feed.lenght", "there is no key `lenght`", "did you mean `length`?"},
             {"load.pump.draw", "the profile has no [[load]]", "write it in the file first"},
             {"trip.days.hours", "`days` has no keys of its own", ""},
             {"solar.panels", "there is no key `panels`", "did you mean `panel`?"},
             {"fridge.restock.mass", "the profile has no `restock` to change",
              "give the whole: restock = [{ on = \"2-3\", at = \"17:00\", mass = \"4 kg\", from = \"24 degC\" }]"},
         }) {
        CAPTURE(one.said);
        Entry root = tree(simplest);
        const auto fault = set(root, one.said, whole(7));
        REQUIRE(fault);
        CHECK(fault->path == one.said);
        CHECK(fault->what == one.what);
        CHECK(fault->hint == one.hint);
        CHECK(!root.find("solar"));
        CHECK(testing::faults_of(simplest).empty());
    }
    for (const std::string_view odd :
         {"", ".", "run.", "run..", ".days", "trip.", "run.feed.", "run[0].length", "trip.days."}) {
        CAPTURE(odd);
        Entry root = tree(simplest);
        CHECK(set(root, odd, whole(7)));
    }
}

TEST_CASE("two entries of one name cannot be told apart") {
    Entry root = tree(simplest + "[[run]]\nto = \"fridge\"\nlength = \"2 m\"\n");
    const auto fault = set(root, "run.fridge.length", text("4 m"));
    REQUIRE(fault);
    CHECK(fault->what == "there are 2 of [[run]] called `fridge`");
}

}  // namespace voltwright

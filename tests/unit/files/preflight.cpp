#include "testing.hpp"

#include "voltwright/files/preflight.hpp"

#include <string>
#include <vector>

namespace voltwright {

namespace {

struct Slipped {
    std::string_view text;
    int line, column, length;
    std::string_view what, hint;
};

const std::string quantity = "a quantity is written in quotes";

}  // namespace

// The slips are those that the description of the profile names; the columns are counted by hand.
TEST_CASE("a value without quotes is explained, with the caret under the value") {
    const Slipped slips[] = {
        {"length = 6 m", 1, 10, 3, quantity, "length = \"6 m\""},
        {"[trip]\nhigh   = 31 ± 3 degC # by day", 2, 10, 11, quantity, "high = \"31 ± 3 degC\""},
        {"high = 31 °C\r\n", 1, 8, 5, quantity, "high = \"31 °C\""},
        {"low = 14 degC", 1, 7, 7, quantity, "low = \"14 degC\""},
        {"low = -5 degC", 1, 7, 7, quantity, "low = \"-5 degC\""},
        {"output = 25A", 1, 10, 3, quantity, "output = \"25A\""},
        {"feed_drop = 6 %", 1, 13, 3, quantity, "feed_drop = \"6 %\""},
        {"size = 1/0 AWG", 1, 8, 7, quantity, "size = \"1/0 AWG\""},
        {"on = 2-4", 1, 6, 3, quantity, "on = \"2-4\""},
        {"on = [1, 2-4]", 1, 10, 3, quantity, "\"2-4\""},
        {"drives = 08:30-10:00", 1, 10, 11, "a time of day is written in quotes", "drives = \"08:30-10:00\""},
        {"drives = 08:30-10:00, 17:00-18:00", 1, 10, 24, "a time of day is written in quotes",
         "drives = [\"08:30-10:00\", \"17:00-18:00\"]"},
        {"at = 22:00", 1, 6, 5, "a time of day is written in quotes", "at = \"22:00\""},
        {"chemistry = agm", 1, 13, 3, "text is written in quotes", "chemistry = \"agm\""},
        {"where = engine bay  ", 1, 9, 10, "text is written in quotes", "where = \"engine bay\""},
        {"essential = True", 1, 13, 4, "yes is written as true, in small letters", "essential = true"},
        {"rated = [{ around = 25 degC, a_day = \"22 Ah\" }]", 1, 21, 7, quantity, "around = \"25 degC\""},
        {"\tlength = 6 m", 1, 11, 3, quantity, "length = \"6 m\""},
        {"low = \"14\" degC", 1, 12, 4, "this stands behind the closing quote", "low = \"14 degC\""},
        {"high = ± 3 degC", 1, 8, 8, "text is written in quotes", "high = \"± 3 degC\""},
        {"größe = 1", 1, 3, 1, "\"ö\" may stand only in quotes or in a comment", ""},
    };
    for (const Slipped& slip : slips) {
        CAPTURE(slip.text);
        const std::vector<Slip> found = preflight(slip.text).slips;
        REQUIRE(found.size() == 1);
        CHECK(found[0].place.line == slip.line);
        CHECK(found[0].place.column == slip.column);
        CHECK(found[0].place.length == slip.length);
        CHECK(found[0].what == slip.what);
        CHECK(found[0].hint == slip.hint);
    }
}

TEST_CASE("all values without quotes are found, in the order of the file") {
    const Preflight look = preflight(
        "[trip]\nlow = 14 degC\nhigh = \"31 degC\"\n[[run]]\nlength = 6 m\n"
        "joints = [\n  1 mOhm, # 2 mOhm\n  \"lug\",\n  3 mOhm\n]\nto = \"x\"\n");
    const std::vector<Slip>& found = look.slips;
    REQUIRE(found.size() == 4);
    CHECK(found[0].place.line == 2);
    CHECK(found[1].place.line == 5);
    CHECK(found[2].place.line == 7);
    CHECK(found[2].place.column == 3);
    CHECK(found[3].place.line == 9);
}

// TOML 1.0.0, its sections on strings, numbers, dates, arrays and inline tables (from memory): all of these are valid.
TEST_CASE("what TOML allows is no slip") {
    const std::string_view sound[] = {
        "",
        "# length = 6 m",
        "a = \"6 m\" # b = 6 m",
        "a = '31 ± 3 degC'",
        "a = \"# 6 m\"",
        "a = \"\\\" = 6 m\"",
        "a = '\\'\nb = 'c'",
        "a = \"\"\"\nlength = 6 m\n\"\"\"\nb = 1",
        "a = '''\nlength = 6 m ± 1\n'''",
        "a = \"\"\"x\\\"\"\"\"\nb = 2",
        "a = \"\"\"one\\\n   \"\"\"\nb = 2",
        "a = \"\"\"one \\\r\n\n  \\\"two\"\"\"\nb = 2",
        "a = \"\"\"two at the end\"\"\"\"\"\nb = 2",
        "a = [ 1, 2, # three\n 3, ]",
        "a = [\n[\"x\"], [\"y\"]\n]\n[b]",
        "a = { b = 1, c = { d = \"2 A\" } }",
        "a = {}\nb = []",
        "a = +1_000\nb = -0.5e-3\nc = 0xDEAD_beef\nd = 0o755\ne = 0b11\nf = 6e5",
        "a = inf\nb = -nan\nc = true\nd = false",
        "a = 2026-09-14\nb = 08:30:00\nc = 2026-09-14 08:30:00\nd = 2026-09-14T08:30:00.5+02:00\ne = "
        "1979-05-27T07:32:00Z",
        "\"a b\".'ç d'.e = 1",
        "[ a . \"ä.b\" ]\n[[c]]\nd . e = 1",
        "a = \"\\u00b1\"\r\nb = 1\r\n",
    };
    for (const std::string_view text : sound) {
        CAPTURE(text);
        CHECK(preflight(text).slips.empty());
        CHECK(preflight(text).sound_to == text.size());
    }
}

TEST_CASE("what is no TOML at all is left to the reader of TOML") {
    for (const std::string_view text :
         {"[", "[[", "[=]", "length", "= 6 m", "a = \"x\nb = 6 m", "a = [1, 2", "a b = 6 m", "a =", "a = \"\"\"x",
          "a = 1.2.3", "a = 007", "a = { b = 1\nc = 6 m }", "a = \"x\" \"y\""}) {
        CAPTURE(text);
        CHECK(preflight(text).slips.empty());
    }
}

TEST_CASE("names and lists nested out of all reason are refused") {
    const auto many = [](std::string_view part, int count) {
        std::string text;
        for (int i = 0; i < count; ++i) text += part;
        return text;
    };
    CHECK(preflight(many("a.", 31) + "a = 1").slips.empty());
    CHECK(preflight(many("a.", 32) + "a = 1").slips.size() == 1);
    CHECK(preflight("[" + many("a.", 32) + "a]").slips.size() == 1);
    CHECK(preflight("a = " + many("[", 32) + many("]", 32)).slips.empty());
    CHECK(preflight("a = " + many("[", 33) + many("]", 33)).slips.size() == 1);
    CHECK(preflight("a = " + many("{a=", 33) + "1" + many("}", 33)).slips.size() == 1);
    CHECK(preflight("a = " + many("[\n", 100000)).slips.size() == 1);
}

}  // namespace voltwright

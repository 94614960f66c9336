#include "testing.hpp"

#include "voltwright/report/diagnostics.hpp"

namespace voltwright {

TEST_CASE("a diagnostic shows its place, the line, a caret under the value and what to do") {
    const Diagnostic diagnostic = {"camp.toml",
                                   {12, 10, 5},
                                   "length = \"6 V\"",
                                   "a length is wanted; this is a voltage",
                                   "write a length such as \"6 m\"",
                                   {}};
    CHECK(show(diagnostic, {}) ==
          "camp.toml:12:10: a length is wanted; this is a voltage\n"
          "  12 | length = \"6 V\"\n"
          "     |          ^~~~~\n"
          "     | write a length such as \"6 m\"\n");
}

TEST_CASE("the caret keeps tabs and stands under the right column of wide characters") {
    CHECK(show(Diagnostic{"f",
                          {1, 3, 2},
                          "\t\xe9\x9b\xbb"
                          "ab",
                          "w",
                          {},
                          {}},
               {}) ==
          "f:1:3: w\n  1 | \t\xe9\x9b\xbb"
          "ab\n    | \t  ^~\n");
    CHECK(show(Diagnostic{"f", {1, 8, 5}, "high = 31 °C", "w", {}, {}}, {}) ==
          "f:1:8: w\n  1 | high = 31 °C\n    |        ^~~~~\n");
}

TEST_CASE("a place behind the end of its line is shown at the end") {
    CHECK(show(Diagnostic{"f", {1, 99, 1}, "a =", "w", {}, {}}, {}) == "f:1:99: w\n  1 | a =\n    |    ^\n");
    CHECK(show(Diagnostic{"f", {1, 1, 1}, "", "w", {}, {}}, {}) == "f:1:1: w\n  1 | \n    | ^\n");
    CHECK(show(Diagnostic{"f", {1, 2, 99}, "abc", "w", {}, {}}, {}) == "f:1:2: w\n  1 | abc\n    |  ^~\n");
}

TEST_CASE("control characters of the file do not reach the terminal") {
    CHECK(show(Diagnostic{"f", {1, 1, 1}, "\x1b[2J", "w", {}, {}}, {}).find('\x1b') == std::string::npos);
}

TEST_CASE("of a very long line the part around the caret is shown") {
    std::string line(3000, 'x');
    line.replace(1500, 3, "6 V");
    const std::string shown = show(Diagnostic{"f", {1, 1501, 3}, line, "w", {}, {}}, {});
    const std::string second =
        shown.substr(shown.find('\n') + 1, shown.find('\n', shown.find('\n') + 1) - shown.find('\n') - 1);
    const std::string third = shown.substr(shown.find('\n', shown.find('\n') + 1) + 1);
    CHECK(second.size() < 230);
    CHECK(second.find("6 V") == third.find("^~~"));
    CHECK(second.find("... ") != std::string::npos);
}

TEST_CASE("what concerns the whole file, or was said on the command line, shows no line") {
    CHECK(show(Diagnostic{"camp.toml", {}, {}, "there is no such file", {}, {}}, {}) ==
          "camp.toml: there is no such file\n");
    CHECK(show(Diagnostic{"camp.toml", {3, 1, 1}, "x", "at least 1 day", "write 1 or more", "--set trip.days=0"}, {}) ==
          "--set trip.days=0: at least 1 day\n  write 1 or more\n");
}

TEST_CASE("several diagnostics end with their number") {
    const Diagnostic one = {"f", {}, {}, "w", {}, {}};
    CHECK(show(Diagnostics{one}, {}) == "f: w\n");
    CHECK(show(Diagnostics{one, one, one}, {}) == "f: w\nf: w\nf: w\n3 things to mend; nothing was planned.\n");
}

}  // namespace voltwright

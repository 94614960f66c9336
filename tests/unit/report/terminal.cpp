#include "testing.hpp"

#include "voltwright/report/terminal.hpp"

namespace voltwright {

TEST_CASE("columns are counted as a terminal takes them") {
    CHECK(columns_of("6 AWG") == 5);
    CHECK(columns_of("31 °C ± 3") == 9);
    CHECK(columns_of("e\xcc\x81") == 1);                 // a combining acute accent, U+0301
    CHECK(columns_of("\xe9\x9b\xbb\xe7\xb7\x9a") == 4);  // two wide characters, U+96FB U+7DDA
    CHECK(columns_of(bold("feed", {.colour = true})) == 4);
}

TEST_CASE("a headline keeps its blanks where it fits, and is broken where it does not") {
    CHECK(headline("HOLDS.  1 warning.", {.width = 18}) == "HOLDS.  1 warning.\n");
    CHECK(headline("HOLDS.  1 warning.", {.width = 17}) == "HOLDS. 1 warning.\n");
    CHECK(headline("HOLDS.  1 warning.", {.width = 10}) == "HOLDS. 1\nwarning.\n");
}

TEST_CASE("colour is there only when the style has it") {
    CHECK(bold("feed", {.colour = false}) == "feed");
    CHECK(red("stop", {.colour = true}) == "\x1b[1;31mstop\x1b[0m");  // ECMA-48, SGR (from memory)
    CHECK(red("", {.colour = true}) == "");
}

TEST_CASE("somebody else's text cannot steer the terminal") {
    CHECK(printable("a\x1b[31mb\x07", {}) == "a?[31mb?");
    CHECK(printable("a\tb", {}) == "a\tb");
    CHECK(printable("\xe2\x80\xae"
                    "abc",
                    {}) == "?abc");  // right-to-left override, U+202E
    CHECK(printable("\xc2\x9b"
                    "1m",
                    {}) == "?1m");  // the one-character control sequence introducer, U+009B
    // Bidirectional isolate, Arabic letter mark, soft hyphen, word joiner, a tag: U+2066, U+061C, U+00AD, U+2060, U+E0041.
    CHECK(printable("\u2066a\u061cb\u00adc\u2060d\U000e0041", {}) == "?a?b?c?d?");
    CHECK(printable("\u200d \u05e9", {}) == "\u200d \u05e9");  // a joiner and a Hebrew letter stay
    CHECK(printable("31 °C", {.unicode = false}) == "31 ?C");
    CHECK(printable("a\xff", {}) == "a?");
}

TEST_CASE("without Unicode the signs of a quantity are spelled as they may be typed") {
    CHECK(spelled("31 ± 3 °C", {.unicode = false}) == "31 +- 3 degC");
    CHECK(spelled("16 mm², 1 mΩ", {.unicode = false}) == "16 mm2, 1 mOhm");
    CHECK(spelled("31 °C", {.unicode = true}) == "31 °C");
}

TEST_CASE("a text is broken at its blanks and hangs under its first word") {
    CHECK(wrap("one two three four", {.width = 10}, "- ", 2) == "- one two\n  three\n  four\n");
    CHECK(wrap("a\nb", {.width = 10}) == "a\nb\n");
    CHECK(wrap("unbreakable", {.width = 4}) == "unbreakable\n");
    CHECK(wrap("± ± ± ±", {.width = 7}) == "± ± ± ±\n");
    CHECK(wrap("", {.width = 7}) == "\n");
}

TEST_CASE("blanks fill a field by columns, not bytes") {
    CHECK(padded("°", 3) == "°  ");
    CHECK(padded_left("°", 3) == "  °");
    CHECK(padded("long", 2) == "long");
}

}  // namespace voltwright

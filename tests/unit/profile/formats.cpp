#include "unit/profile/reading.hpp"

#include "voltwright/profile/formats/accuracy.hpp"
#include "voltwright/profile/formats/cable.hpp"
#include "voltwright/profile/formats/calendar.hpp"
#include "voltwright/profile/formats/clock.hpp"
#include "voltwright/profile/formats/draw.hpp"
#include "voltwright/profile/formats/fuse.hpp"
#include "voltwright/profile/formats/joints.hpp"
#include "voltwright/profile/formats/place.hpp"
#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/profile/formats/return_path.hpp"
#include "voltwright/profile/formats/stud.hpp"
#include "voltwright/profile/formats/word.hpp"
#include "voltwright/profile/sections/inrush.hpp"
#include "voltwright/profile/sections/rated.hpp"
#include "voltwright/profile/sections/way.hpp"

namespace voltwright {

namespace {

using testing::tree;

/// What a value of that form is written back as, or the fault.
template <class T>
std::string reread(const std::string& toml) {
    const Entry root = tree("it = " + toml);
    Faults faults;
    T value{};
    if (!Format<T>::read(*root.find("it"), "it", value, faults)) {
        REQUIRE(!faults.empty());
        return faults[0].path + ": " + faults[0].what + (faults[0].hint.empty() ? "" : " | " + faults[0].hint);
    }
    REQUIRE(faults.empty());
    return Format<T>::write(value);
}

template <class T>
void check(std::initializer_list<std::pair<std::string, std::string>> cases) {
    for (const auto& [toml, expected] : cases) {
        CAPTURE(toml);
        CHECK(reread<T>(toml) == expected);
        // What was written reads back as the same.
        if (expected.substr(0, 2) != "it") CHECK(reread<T>(expected) == expected);
    }
}

}  // namespace

TEST_CASE("studs are threads, diameters or fractions of an inch") {
    check<Stud>({
        {R"("M8")", R"("8 mm")"},
        {R"("m10")", R"("10 mm")"},
        {R"("8 mm")", R"("8 mm")"},
        {R"(" 5/16 in ")", R"("7.9375 mm")"},
        {R"("3/8 inch")", R"("9.525 mm")"},
        {R"("3/0 in")", R"(it: "3/0 in" is no stud | its thread or its diameter, as in "M8", "8 mm" or "5/16 in")"},
        {R"("M8x1.25")", R"(it: "M8x1.25" is no stud | its thread or its diameter, as in "M8", "8 mm" or "5/16 in")"},
        {R"("8")", R"(it: "8" is no stud | its thread or its diameter, as in "M8", "8 mm" or "5/16 in")"},
        {R"("8 V")", R"(it: "8 V" is no stud | its thread or its diameter, as in "M8", "8 mm" or "5/16 in")"},
        {R"("8 ± 1 mm")", R"(it: "8 ± 1 mm" is no stud | its thread or its diameter, as in "M8", "8 mm" or "5/16 in")"},
        {R"(8)", R"(it: a stud is wanted; this is a bare number | write it in quotes, as in "M8")"},
    });
}

TEST_CASE("clock times and windows") {
    check<ClockTime>({
        {R"("8:30")", R"("08:30")"},
        {R"("08:30")", R"("08:30")"},
        {R"("24:00")", R"("24:00")"},
        {R"("24:01")", R"(it: "24:01" is no time of day | hours and minutes of 24 hours, as in "18:30")"},
        {R"("8.30")", R"(it: "8.30" is no time of day | hours and minutes of 24 hours, as in "18:30")"},
        {R"("8:60")", R"(it: "8:60" is no time of day | hours and minutes of 24 hours, as in "18:30")"},
        {"8", R"(it: a time of day is wanted; this is a bare number | write it in quotes, as in "18:30")"},
    });
    using Windows = std::vector<ClockWindow>;
    check<Windows>({
        {R"("8:30-10:00")", R"("08:30-10:00")"},
        {R"(" 08:30 – 10:00 ")", R"("08:30-10:00")"},
        {R"("08:30 to 10:00")", R"("08:30-10:00")"},
        {R"(["08:30-10:00", "16:00-17:30"])", R"(["08:30-10:00", "16:00-17:30"])"},
        {R"("22:00-06:00")", R"("22:00-06:00")"},
        {R"("00:00-24:00")", R"("00:00-24:00")"},
        {R"("none")", R"("none")"},
        {"[]", R"("none")"},
        {R"("24:00-06:00")", "it: nothing begins at 24:00 | write 00:00"},
        {R"("08:00-08:00")", R"(it: this begins and ends at the same time | the whole day is "00:00-24:00")"},
        {R"("08:30-10:00, 16:00-17:00")",
         R"(it: "08:30-10:00, 16:00-17:00" is no time from and to | write a list: ["08:30-10:00", "16:00-17:30"])"},
        {R"(["08:30-10:00", "later"])",
         R"(it[1]: "later" is no time from and to | hours and minutes of 24 hours, as in "08:30-10:00")"},
    });
}

TEST_CASE("dates") {
    check<CalendarDate>({
        {"2026-09-14", "2026-09-14"},
        {R"("2026-09-14")", "2026-09-14"},
        {R"("2024-02-29")", "2024-02-29"},
        {R"("2026-02-29")", "it: there is no such day | year, month and day: 2026-09-14"},
        {R"("2026-13-01")", "it: there is no such day | year, month and day: 2026-09-14"},
        {R"("14.9.2026")", R"(it: "14.9.2026" is no date | year, month and day: 2026-09-14)"},
        {R"("1803-01-01")", "it: this year is outside 1900 to 2200"},
        {"2026", "it: a date is wanted; this is a whole number | year, month and day: 2026-09-14"},
    });
}

TEST_CASE("days of the trip") {
    check<TripDays>({
        {R"("2-4")", R"("2-4")"},
        {R"(" 2 – 4 ")", R"("2-4")"},
        {R"("3")", "3"},
        {"3", "3"},
        {"[1, 6]", "[1, 6]"},
        {R"(["1-3", 6])", R"(["1-3", 6])"},
        {"[1, 2, 3]", R"("1-3")"},
        {"0", "it: the days of a trip are 1 to 366"},
        {"367", "it: the days of a trip are 1 to 366"},
        {"9223372036854775807", "it: the days of a trip are 1 to 366"},
        {R"("4-2")", "it: these days end before they begin"},
        {"[6, 1]", "it[1]: the days of a list rise, and each stands once"},
        {R"(["2-4", 4])", "it[1]: the days of a list rise, and each stands once"},
        {"[]", "it: this list of days is empty | as in [1, 6]"},
        {R"("2-")", R"(it: "2-" names no days of the trip | as in "2-4", 3 or [1, 6])"},
        {"2.5", R"(it: a day of the trip is wanted; this is a number | as in "2-4", 3 or [1, 6])"},
    });
}

TEST_CASE("places, ways and returns") {
    check<Somewhere>({
        {R"("engine bay")", R"("engine bay")"},
        {R"("40 degC")", R"("40 degC")"},
        {R"("-5 degC")", R"("-5 degC")"},
        {"40",
         R"(it: a place or a temperature is wanted; this is a bare number, without its unit | write it in quotes, as in "40 degC")"},
    });
    check<Way>({
        {R"("cabin")", R"("cabin")"},
        {R"("45 degC")", R"("45 degC")"},
        {R"([{ place = "engine bay", length = "2 m" }, { length = "4 m", place = "30 degC" }])",
         R"([{ place = "engine bay", length = "2 m" }, { place = "30 degC", length = "4 m" }])"},
        {R"([{ place = "engine bay" }])",
         R"(it[0].length: this `it` has no `length` | write length = "2 m": length of the run there)"},
        {R"([{ place = "engine bay", length = "2 m", width = 2 }])",
         "it[0].width: `width` is no key of `it` | its keys are place, length"},
        {R"([{ place = "engine bay", length = "-2 m" }])",
         "it[0].length: -2 m is outside the range of `length` | it may be above 0 m, at most 100 m"},
        {"[]", R"(it: this list of places is empty | as in [{ place = "cabin", length = "2 m" }])"},
    });
    check<ReturnPath>({
        {R"("cable")", R"("cable")"},
        {R"("Body")", R"("body")"},
        {R"("4 mOhm")", R"("4 mOhm")"},
        {R"("chassis")",
         R"(it: "chassis" is no way back | write "body" where it is welded in one piece, "frame" for a bolted tub or a ladder frame)"},
    });
}

TEST_CASE("insulation, sizes and aluminium") {
    check<Insulation>({
        {R"("105 degC")", R"("105 degC")"},
        {R"("105 °C XLPE")", R"("105 degC xlpe")"},
        {R"("105 degC xple")", R"(it: "xple" is no insulation that is known | did you mean "xlpe"?)"},
    });
    check<Gauge>({
        {R"("8 AWG")", R"("8 AWG")"},
        {R"("8 B&S")", R"("8 AWG")"},
        {R"("16 mm²")", R"("16 mm2")"},
        {R"("6 mm auto")", R"("6 mm auto")"},
        {"8",
         R"(it: a cable size is wanted; this is a whole number | write it in quotes with its system, as in "8 AWG" or "8 mm2")"},
    });
    const std::string refusal =
        "it: aluminium and copper-clad aluminium are not planned with: they carry about a third less than copper of "
        "the same "
        "size, creep until the lug is loose, and their oxide heats the joint | take a copper cable and write its size: "
        R"("8 AWG", "10 mm2")";
    for (const std::string_view size :
         {"16 mm2 CCA", "16 mm2 aluminium", "16 mm2 Al", "2 AWG copper-clad aluminum", "cca 16 mm2"}) {
        CAPTURE(size);
        CHECK(reread<Gauge>(formats::toml_quoted(size)) == refusal);
    }
    CHECK(reread<Insulation>(R"("105 degC pvc CCA")") == refusal);
    check<SizesChoice>({
        {R"("AWG")", R"("awg")"},
        {R"(["8 AWG", "16 mm2"])", R"(["8 AWG", "16 mm2"])"},
        {R"(["8 AWG", "8 B&S"])", "it[1]: this size stands in the list twice"},
        {"[]", R"(it: this list of sizes is empty | "awg", "metric", or ["8 AWG", "16 mm2"])"},
        {R"("imperial")",
         R"(it: "imperial" is not known here | "awg", "metric", or a list of sizes, as in ["8 AWG", "16 mm2"])"},
    });
}

TEST_CASE("joints and fuses") {
    check<std::vector<JointChoice>>({
        {R"(["lug", "two-pole plug 50 A", "0.3 mOhm"])", R"(["lug", "two-pole plug 50 A", "0.3 mOhm"])"},
        {R"("lug")", R"(["lug"])"},
        {"[]", "[]"},
    });
    check<GivenFuses>({
        {R"("50 A SF30")", R"("50 A SF30")"},
        {R"("50A SF30")", R"("50 A SF30")"},
        {R"("none")", R"("none")"},
        {R"({ starter = "50 A SF30", battery = "none" })", R"({ starter = "50 A SF30", battery = "none" })"},
        {R"({ "fuse block" = "15 A blade" })", R"({ "fuse block" = "15 A blade" })"},
        {R"("50 A")",
         R"(it: a fuse is written with its family; this is a rating alone | as in "50 A SF30" or "15 A blade")"},
        {"{}", R"(it: this names no end of the run | as in { starter = "50 A SF30" })"},
    });
    check<std::vector<FuseChoice>>({
        {R"(["40 A SF30", "15 A blade"])", R"(["40 A SF30", "15 A blade"])"},
        {R"("40 A SF30")", R"(["40 A SF30"])"},
        {"[]", "it: this list of fuses is empty | leave the key out to take every usual rating"},
    });
}

TEST_CASE("what is drawn, in whichever unit") {
    check<Draw>({{R"("45 W")", R"("45 W")"}, {R"("3.5 A")", R"("3.5 A")"}, {R"("4 ohm")", R"("4 Ohm")"}});
    check<DailyUse>({{R"("22 Ah")", R"("22 Ah")"}, {R"("264 Wh")", R"("264 Wh")"}});
    CHECK(reread<Draw>(R"("4 m")") ==
          R"(it: this is a length; a power or a current or a resistance is wanted | "45 W")");
    CHECK(
        reread<DailyUse>("22") ==
        R"(it: a charge or an energy is wanted; this is a bare number, without its unit | write it in quotes, as in "120 Ah")");
}

TEST_CASE("the accuracy of a meter") {
    check<Accuracy<Voltage>>({
        {R"("0.5 % + 20 mV")", R"("0.5 % + 20 mV")"},
        {R"("± 0.5 % + 20 mV")", R"("0.5 % + 20 mV")"},
        {R"("20 mV + 0.5 %")", R"("0.5 % + 20 mV")"},
        {R"("1 %")", R"("1 %")"},
        {R"("20 mV")", R"("20 mV")"},
        {R"("1 % + 2 %")",
         R"(it: this is a ratio; a voltage is wanted | a share of the reading and a fixed part, as in "0.5 % + 20 mV")"},
    });
    check<Accuracy<Current>>({{R"("2 %")", R"("2 %")"}, {R"("2 % + 0.1 A")", R"("2 % + 100 mA")"}});
}

TEST_CASE("words in any case, with the word that was meant") {
    check<Chemistry>({
        {R"("AGM")", R"("agm")"},
        {R"("amg")", R"(it: "amg" is not known here | did you mean "agm"?)"},
        {R"("LiFePO4")", R"(it: "LiFePO4" is not known here | write "lfp": lithium iron phosphate)"},
        {R"("lithium")",
         R"(it: "lithium" is not known here | write "lfp" if it is lithium iron phosphate; no other lithium battery is planned with)"},
        {R"("lead-acid")", R"(it: "lead-acid" is not known here | say which: "flooded", "agm" or "gel")"},
        {R"("zinc")", R"(it: "zinc" is not known here | one of "flooded", "agm", "gel" or "lfp")"},
        {"12", R"(it: one of "flooded", "agm", "gel" or "lfp" is wanted; this is a whole number)"},
    });
}

TEST_CASE("names") {
    check<std::string>({
        {R"("  seed fridge ")", R"("seed fridge")"},
        {R"("a \"b\" \\ c")", R"("a \"b\" \\ c")"},
        {R"("")", "it: this text is empty"},
        {R"("a\u0007b")",
         "it: this text has a character that cannot be seen | type it anew: letters, digits and blanks"},
        {R"("a\u202Eb")",
         "it: this text has a character that cannot be seen | type it anew: letters, digits and blanks"},
        // Soft hyphen, Arabic letter mark, word joiner, byte order mark, a tag.
        {R"("a\u00ADb")",
         "it: this text has a character that cannot be seen | type it anew: letters, digits and blanks"},
        {R"("a\u061Cb")",
         "it: this text has a character that cannot be seen | type it anew: letters, digits and blanks"},
        {R"("a\u2060b")",
         "it: this text has a character that cannot be seen | type it anew: letters, digits and blanks"},
        {R"("a\uFEFFb")",
         "it: this text has a character that cannot be seen | type it anew: letters, digits and blanks"},
        {R"("a\U000E0041b")",
         "it: this text has a character that cannot be seen | type it anew: letters, digits and blanks"},
        {"\"" + std::string(81, 'x') + "\"", "it: this text has 81 characters; 80 are allowed"},
    });
    // What stands beside those in Unicode is seen: Arabic, a fraction, a symbol, an emoji.
    CHECK(reread<std::string>("\"\u061b \u00ac \u2070 \U0001f690\"") == "\"\u061b \u00ac \u2070 \U0001f690\"");
    // Counted in characters, not in bytes.
    std::string eighty;
    for (int i = 0; i < 80; ++i) eighty += "é";
    CHECK(reread<std::string>("\"" + eighty + "\"") == "\"" + eighty + "\"");
}

TEST_CASE("whole numbers and flags") {
    check<int>({
        {"3", "3"},
        {"3.0", "it: a whole number is wanted; this is a number"},
        {R"("3")", "it: a whole number is wanted; this is a text | without quotes: 3"},
        {"99999999999", "it: 99999999999 is too large a number"},
    });
    check<bool>({
        {"true", "true"},
        {R"("yes")", "it: true or false is wanted; this is a text | write true or false, without quotes"},
    });
}

}  // namespace voltwright

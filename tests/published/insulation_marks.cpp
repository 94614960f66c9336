#include "testing.hpp"
#include "voltwright/messages/parts.hpp"
#include "voltwright/tables/tables.hpp"

#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <vector>

/// What a mark on a cable says: held against what standards and makers print. Where a source was read it is named so.

namespace voltwright {

namespace {

const InsulationMarkRow& mark(std::string_view name) {
    const InsulationMarkRow* row = find_insulation_mark(built_in_tables(), name);
    CAPTURE(std::string(name));
    REQUIRE(row);
    return *row;
}

}  // namespace

TEST_CASE("insulation marks: UL 1426 boat cable, a guide read in a reprint: BC-5W2 is 105 degC dry and 75 degC wet") {
    CHECK(in_celsius(mark("BC-5W2").lasts) == near(105.0, 1e-9));
    REQUIRE(mark("bc-5w2").wet);
    CHECK(in_celsius(*mark("bc-5w2").wet) == near(75.0, 1e-9));
}

TEST_CASE("insulation marks: JASO D611, a cable maker's table, read") {
    const struct {
        std::string_view mark;
        double lasts;
    } printed[] = {{"AV", 80}, {"AVS", 80}, {"HF", 85}, {"AVX", 100}, {"AEX", 120}};
    for (const auto& one : printed) CHECK(in_celsius(mark(one.mark).lasts) == near(one.lasts, 1e-9));
}

TEST_CASE("insulation marks: BS 6231 tri-rated wire prints 105 degC and bears 90 degC for long, read") {
    REQUIRE(mark("tri-rated").prints);
    CHECK(in_celsius(*mark("tri-rated").prints) == near(105.0, 1e-9));
    CHECK(in_celsius(mark("tri-rated").lasts) == near(90.0, 1e-9));
}

TEST_CASE("insulation marks: EN 50618 and IS 9857, cable makers' tables, read") {
    CHECK(in_celsius(mark("EN 50618").lasts) == near(90.0, 1e-9));
    // The general sort of the two.
    CHECK(in_celsius(mark("welding cable").lasts) == near(60.0, 1e-9));
}

// SAE J1127 (2000), scope, read: classes 85, 105, 125. J1128 (2020), a digest, read weak: GPT 85, TWP 105, TXL 125.
TEST_CASE("insulation marks: none of SAE J1127 and J1128 counts for more than its class") {
    CHECK(mark("GPT").lasts <= celsius(85));
    CHECK(mark("SGT").lasts <= celsius(85));
    CHECK(mark("TWP").lasts <= celsius(105));
    for (const std::string_view name : {"GXL", "SXL", "TXL", "SGX", "STX"}) CHECK(mark(name).lasts <= celsius(125));
}

TEST_CASE("a buyer of 105 degC cable is told the marks that bear it, and those that mislead") {
    const std::vector<std::string> lines = marks_in_words(celsius(105), built_in_tables());
    REQUIRE(lines.size() == 2);
    for (const std::string_view good : {"BC-5W2 (75 degC where it gets wet)", "GXL", "TWP", "AEX"})
        CHECK(lines[0].find(good) != std::string::npos);
    for (const std::string_view bad : {"tri-rated (prints 105 degC, bears 90 degC for long)", "GPT", "AVX", "H07V-K"})
        CHECK(lines[1].find(bad) != std::string::npos);
    CHECK(lines[0].find("tri-rated") == std::string::npos);
    // 70 degC household wire bears 70 degC, and is made for no vehicle.
    const std::vector<std::string> cool = marks_in_words(celsius(70), built_in_tables());
    CHECK(cool[0].find("H07V-K") == std::string::npos);
    CHECK(cool[1].find("welding cable") != std::string::npos);
}

}  // namespace voltwright

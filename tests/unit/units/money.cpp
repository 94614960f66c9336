#include "testing.hpp"

#include "voltwright/units/money.hpp"

#include <cstdint>
#include <limits>
#include <string>

namespace voltwright {

namespace {

std::string read_back(std::string_view text) {
    const auto money = parse_money(text);
    return money ? show(*money) : "refused";
}

}  // namespace

TEST_CASE("money is read to the last digit and shown with the digits it has, two at least") {
    CHECK(parse_money("4.20")->ten_thousandths == 42000);
    CHECK(parse_money(" 0.0001 ")->ten_thousandths == 1);
    CHECK(read_back("4.20") == "4.20");
    CHECK(read_back("4.2") == "4.20");
    CHECK(read_back("1250") == "1250.00");
    CHECK(read_back("0.125") == "0.125");
    CHECK(read_back("007") == "7.00");
    CHECK(read_back("1000000000") == "1000000000.00");
    CHECK(show(*parse_money("1250"), 0) == "1250");
    CHECK(show(Money{-42000}) == "-4.20");
    CHECK(show(Money{std::numeric_limits<std::int64_t>::min()}) == "-922337203685477.5808");
}

TEST_CASE("what is no amount of money is refused") {
    for (const std::string_view text : {"", " ", "4,20", "-4.20", "+4", "4.", ".5", "4.20001", "1e3", "N$ 4", "4 kr",
                                        "0x4", "nan", "1000000000.01", "99999999999999999999", "4.2 0", "٤"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_money(text));
    }
    CHECK(parse_money("4,20").wrong().why == "an amount has a point, not a comma");
    CHECK(parse_money("-1").wrong().why == "a price is not negative");
    CHECK(parse_money("1.23456").wrong().why == "an amount has at most four digits after the point");
}

TEST_CASE("a length of 0.1 m costs its share, rounded half up to the currency's decimals") {
    const auto cost = [](std::string_view price, std::int64_t tenths, int decimals) {
        return show(*share_of(*parse_money(price), tenths, 10, decimals), decimals);
    };
    CHECK(cost("78.50", 145, 2) == "1138.25");  // 14.5 m, exact
    CHECK(cost("0.05", 1, 2) == "0.01");        // half a hundredth: up
    CHECK(cost("0.04", 1, 2) == "0.00");
    CHECK(cost("0.15", 1, 2) == "0.02");
    CHECK(cost("0.10", 1, 4) == "0.0100");
    CHECK(cost("14.90", 10, 0) == "15");
    CHECK(cost("14.50", 10, 0) == "15");
    CHECK(cost("14.49", 10, 0) == "14");
    // 0.7 m at 0.55 is 0.385, which no double holds; 7.7 m of a roll of 25 ft at 10.00 is 7700/7620 of it, 10.105.
    CHECK(show(*share_of(*parse_money("0.55"), 700, 1000, 2)) == "0.39");
    CHECK(show(*share_of(*parse_money("10.00"), 7700, 7620, 2)) == "10.10");
    CHECK(show(*share_of(*parse_money("10.00"), 7700, 7620, 3)) == "10.105");
}

TEST_CASE("sums and products are exact, and nothing where they leave their bits") {
    CHECK(*plus(*parse_money("0.10"), *parse_money("0.20")) == *parse_money("0.30"));
    CHECK(*times(*parse_money("0.07"), 3) == *parse_money("0.21"));
    const Money most{std::numeric_limits<std::int64_t>::max()};
    CHECK_FALSE(plus(most, Money{1}));
    CHECK_FALSE(times(most, 2));
    CHECK_FALSE(share_of(most, 2, 10, 2));
    CHECK_FALSE(share_of(most, 1, 10, 2));
}

}  // namespace voltwright

// How long fuses take. Read: type E. From memory: types C and F, SF30 and SF51. What lies between the printed points is
// recomputed from them by hand.

#include "voltwright/circuit/fuse_time.hpp"
#include "testing.hpp"
#include "voltwright/units/literals.hpp"

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <vector>

using namespace voltwright;
using namespace voltwright::literals;

namespace {

const Tables& tables = built_in_tables();

/// Seconds; −1 where it need not clear.
double most(std::string_view family, double rating, double current) {
    const auto time = fuse_time(tables, family, amperes(rating), amperes(current));
    return time && time->at_most ? in_seconds(*time->at_most) : -1.0;
}
double least(std::string_view family, double rating, double current) {
    return in_seconds(fuse_time(tables, family, amperes(rating), amperes(current))->at_least);
}

/// The row that has the figure printed at a multiple.
const TimeLimitRow* printed_at(std::string_view family, double multiple) {
    for (const TimeLimitRow& row : tables.time_limits)
        if (row.family == family && row.multiple == ratio(multiple)) return &row;
    return nullptr;
}

struct Limits {
    double multiple, least, most;  ///< −1: no most
};

/// Each figure of a family as its row has it, and as a fuse of 10 A and one of 80 A has it.
template <std::size_t Count>
void check_printed(std::string_view family, const Limits (&printed)[Count], Standing standing) {
    for (const Limits& row : printed) {
        CAPTURE(family);
        CAPTURE(row.multiple);
        const TimeLimitRow* found = printed_at(family, row.multiple);
        REQUIRE(found);
        CHECK(found->source.standing == standing);
        CHECK(found->at_least == near(seconds(row.least), seconds(1e-9)));
        CHECK(found->at_most.has_value() == (row.most > 0.0));
        if (found->at_most) CHECK(*found->at_most == near(seconds(row.most), seconds(1e-9)));
        for (const double rating : {10.0, 80.0}) {
            CHECK(least(family, rating, row.multiple * rating) == near(row.least, 1e-9 * row.least));
            CHECK(most(family, rating, row.multiple * rating) == near(row.most, 1e-9 * row.least));
        }
    }
    std::size_t rows = 0;
    for (const TimeLimitRow& row : tables.time_limits) rows += row.family == family;
    CHECK(rows == Count);
}

}  // namespace

// ---- printed and recalled -------------------------------------------------------------------------------------------

TEST_CASE("type E blade fuses keep the printed limits (DIN 72581-3, read in an extract)") {
    constexpr Limits printed[] = {{1.0, 360000, -1}, {1.35, 60, 1800}, {2.0, 2, 60}, {3.5, 0.2, 7}};
    check_printed("blade E", printed, Standing::read_weak);
}

TEST_CASE("type E blade fuses by the printed ampere columns (DIN 72581-3, read in an extract)") {
    // The page rounds the 1.35 column to whole amperes; 40 and 80 are its figures, 40.5 and 81 the products.
    struct {
        double rating, at_1_35, at_2, at_3_5;
    } const printed[] = {{20, 27, 40, 70},   {30, 40, 60, 105},  {40, 54, 80, 140},  {50, 68, 100, 175},
                         {60, 80, 120, 210}, {70, 95, 140, 245}, {80, 108, 160, 280}};
    for (const auto& row : printed) {
        CAPTURE(row.rating);
        const auto current_of = [&](double within) {
            return in_amperes(*surely_clears(tables, "blade E", amperes(row.rating), seconds(within)));
        };
        CHECK(current_of(1800) == near(row.at_1_35, 1.0));
        CHECK(current_of(60) == near(row.at_2, 1e-9));
        CHECK(current_of(7) == near(row.at_3_5, 1e-9));
        CHECK(least("blade E", row.rating, row.at_2) == near(2.0, 1e-9));
        CHECK(least("blade E", row.rating, row.at_3_5) == near(0.2, 1e-9));
    }
    // A 20 A fuse at 27 A clears somewhere between a minute and half an hour.
    CHECK(least("blade E", 20, 27) == near(60.0, 1e-6));
    CHECK(most("blade E", 20, 27) == near(1800.0, 1e-5));
}

TEST_CASE("type C and F blade fuses keep their limits (ISO 8820-3, from memory)") {
    constexpr Limits recalled[] = {{1.1, 360000, -1}, {1.35, 0.75, 600}, {1.6, 0.25, 50},
                                   {2.0, 0.15, 5},    {3.5, 0.04, 0.5},  {6.0, 0.02, 0.1}};
    check_printed("blade", recalled, Standing::memory);
    check_printed("blade F", recalled, Standing::memory);
}

TEST_CASE(
    "at 1.35 times the rating blade fuses clear within 0.75 to 1800 s over the types (ISO 8820-3, read in a page)") {
    double soonest = 1e9, latest = 0.0;
    for (const std::string_view family : {"blade", "blade F", "blade E"}) {
        soonest = std::min(soonest, least(family, 20, 27));
        latest = std::max(latest, most(family, 20, 27));
    }
    CHECK(soonest == near(0.75, 1e-6));
    CHECK(latest == near(1800.0, 1e-3));
}

TEST_CASE("bolted fuses keep one of the two sets that are recalled (ISO 8820-5, from memory)") {
    constexpr Limits sf30[] = {{0.75, 360000, -1}, {1.5, 90, 3600}, {2.0, 3, 100}, {3.0, 0.3, 3}, {5.0, 0.1, 1}};
    constexpr Limits sf51[] = {{0.75, 360000, -1}, {1.0, 14400, -1}, {1.35, 120, 1800},
                               {2.0, 1, 15},       {3.5, 0.3, 5},    {6.0, 0.1, 1}};
    check_printed("SF30", sf30, Standing::memory);
    check_printed("SF51", sf51, Standing::memory);
}

TEST_CASE("of battery-post fuses no time limits are known, and nothing is promised") {
    CHECK_FALSE(fuse_time(tables, "post", 100_A, 1000_A));
    CHECK_FALSE(surely_clears(tables, "post", 100_A, 5_s));
    CHECK_FALSE(let_through(tables, "post", 100_A, 1000_A));
    CHECK_FALSE(most_let_through(tables, "post", 100_A, 500_A, 1000_A));
    CHECK_FALSE(is_selective(tables, {"post", 100_A}, {"blade", 15_A}, 100_A));
    CHECK(rides_through(tables, "post", 100_A, 100_A, hours(1)));
    CHECK_FALSE(rides_through(tables, "post", 100_A, 101_A, seconds(0.001)));
}

// ---- between and beyond ---------------------------------------------------------------------------------------------

TEST_CASE("between the limits and beyond them (worked out by hand on logarithmic paper)") {
    constexpr Limits type_e[] = {{1.5, 24.1095, 723.285}, {1.6, 13.7925, 413.774}, {2.5, 0.7985, 25.4743},
                                 {3.0, 0.3771, 12.6507},  {5, 0.0980, 3.4300},     {6, 0.0681, 2.3819},
                                 {10, 0.0245, 0.8575}};
    // The extract's four digits give a least time to half of 0.0001 s.
    for (const Limits& row : type_e) {
        CAPTURE(row.multiple);
        CHECK(least("blade E", 50, row.multiple * 50) == near(row.least, 0.5e-4));
        CHECK(most("blade E", 50, row.multiple * 50) == near(row.most, row.most * 1e-5 + 0.5e-4));
    }
    constexpr Limits type_c[] = {
        {1.5, 0.37947, 128.503}, {1.8, 0.19092, 14.8298}, {2.5, 0.08855, 1.9963}, {3.0, 0.05757, 0.94282}};
    for (const Limits& row : type_c) {
        CAPTURE(row.multiple);
        CHECK(least("blade", 20, row.multiple * 20) == near(row.least, 0.5e-5));
        CHECK(most("blade", 20, row.multiple * 20) == near(row.most, row.most * 1e-5 + 0.5e-5));
    }
    // Beyond 3.5 only the most times were worked out with the point at 6.
    struct {
        double multiple, most;
    } const further[] = {{5, 0.17236}, {8, 0.05625}, {10, 0.03600}, {20, 0.00900}};
    for (const auto& row : further) {
        CAPTURE(row.multiple);
        CHECK(most("blade", 20, row.multiple * 20) == near(row.most, 0.5e-5));
    }
}

TEST_CASE("type C with its printed points up to 3.5 alone, beyond them constant I2t (worked out by hand)") {
    std::vector<TimeLimitRow> rows;
    for (const TimeLimitRow& row : tables.time_limits)
        if (row.family == "blade" && row.multiple <= ratio(3.5)) rows.push_back(row);
    Tables shortened = tables;
    shortened.time_limits = rows;
    struct {
        double multiple, least;
    } const figures[] = {{5, 0.01960}, {8, 0.00766}, {10, 0.00490}, {20, 0.00123}};
    for (const auto& row : figures) {
        CAPTURE(row.multiple);
        const auto time = fuse_time(shortened, "blade", 20_A, amperes(20 * row.multiple));
        REQUIRE(time);
        CHECK(in_seconds(time->at_least) == near(row.least, 0.501e-5));  // 0.001225 is printed as 0.00123
    }
}

TEST_CASE("the time of a fuse tells the printed points that it lies between, and where they are from") {
    const auto between = fuse_time(tables, "blade E", 50_A, 150_A);
    REQUIRE(between);
    CHECK(*between->printed_current == near(100_A, 1e-9_A));
    CHECK(*between->printed_time == near(60_s, 1e-9_s));
    CHECK(*between->next_current == near(175_A, 1e-9_A));
    CHECK(*between->next_time == near(7_s, 1e-9_s));
    CHECK(between->source.cite.find("DIN 72581-3") != std::string_view::npos);
    const auto beyond = fuse_time(tables, "blade", 10_A, 100_A);
    REQUIRE(beyond);
    CHECK(*beyond->printed_current == near(60_A, 1e-9_A));
    CHECK_FALSE(beyond->next_current);
    CHECK(beyond->source.standing == Standing::memory);
    const auto never = fuse_time(tables, "blade", 10_A, 11_A);
    REQUIRE(never);
    CHECK_FALSE(never->at_most);
    CHECK_FALSE(never->printed_time);
    CHECK(never->source.cite.find("ISO 8820-3") != std::string_view::npos);
}

TEST_CASE("the current that is surely cleared in 5 s (worked out by hand)") {
    // 3.5·√(7/5) = 4.1413 times the rating for type E, exactly twice it for type C.
    CHECK(in_amperes(*surely_clears(tables, "blade E", 1_A, 5_s)) == near(4.1413, 0.5e-4));
    // 50 times the rounded 4.1413, rounded up.
    CHECK(in_amperes(*surely_clears(tables, "blade E", 50_A, 5_s)) == near(207.07, 0.01));
    CHECK(in_amperes(*surely_clears(tables, "blade", 10_A, 5_s)) == 20.0);
    CHECK(most("blade E", 50, 175) > 5.0);
    CHECK(most("blade E", 50, 207.06) > 5.0);
    CHECK(most("blade E", 50, 207.07) < 5.0);
    CHECK_FALSE(surely_clears(tables, "blade", 10_A, 0_s));
}

TEST_CASE("selectivity of pairs worked out by hand") {
    struct {
        double front, behind, fault, behind_most, front_least;
        bool selective;
    } const pairs[] = {
        {50, 15, 200, 0.02025, 0.15313, true},
        {40, 30, 120, 0.33559, 0.37713, true},
        {40, 30, 105, 0.5, 0.65328, true},
        {40, 30, 140, 0.21179, 0.2, false},  // just not
    };
    for (const auto& pair : pairs) {
        CAPTURE(pair.fault);
        CHECK(most("blade", pair.behind, pair.fault) == near(pair.behind_most, 0.5e-5));
        CHECK(least("blade E", pair.front, pair.fault) == near(pair.front_least, 0.5e-5));
        CHECK(is_selective(tables, {"blade E", amperes(pair.front)}, {"blade", amperes(pair.behind)},
                           amperes(pair.fault)) == pair.selective);
    }
    CHECK(is_selective(tables, {"blade", 15_A}, {"blade", 15_A}, 100_A) == false);
    // Too little for the fuse behind ever to clear: it does not come first.
    CHECK(is_selective(tables, {"blade E", 50_A}, {"blade", 15_A}, 16_A) == false);
}

TEST_CASE("one feed all the way (worked out by hand: a 50 A type E fuse, 426.91 A at the far end)") {
    CHECK(most("blade E", 50, 426.91) == near(1.17625, 0.5e-5 + 2e-5));  // the current has five digits
    CHECK(*let_through(tables, "blade E", 50_A, 426.91_A) ==
          near(ampere_squared_seconds(214375), ampere_squared_seconds(0.5)));
    CHECK_FALSE(let_through(tables, "blade E", 50_A, 60_A));
}

TEST_CASE("a type SF51 lets most through at 3.5 times its rating, between its points of 2 and 6 (worked out by hand)") {
    // 15·2² = 60, 5·3.5² = 61.25, 1·6² = 36 times the rating squared, the times from memory.
    const auto worst = most_let_through(tables, "SF51", 100_A, 200_A, 900_A);
    REQUIRE(worst);
    CHECK(worst->current == near(350_A, 1e-9_A));
    CHECK(*let_through(tables, "SF51", 100_A, worst->current) ==
          near(ampere_squared_seconds(612500), ampere_squared_seconds(0.5)));
    // Of the others the lowest current lets most through.
    CHECK(most_let_through(tables, "blade", 10_A, 20_A, 200_A)->current == 20_A);
    CHECK_FALSE(most_let_through(tables, "SF51", 100_A, 110_A, 900_A));
}

// ---- pulses ---------------------------------------------------------------------------------------------------------

TEST_CASE("heating effect of pulses by their shape (a fuse maker's guide, read)") {
    const JouleIntegral hair = ampere_squared_seconds(1e-9);
    CHECK(ramp_let_through(20_A, 20_A, 0.1_s) == near(ampere_squared_seconds(40), hair));   // ip²·t
    CHECK(ramp_let_through(30_A, 0_A, 0.3_s) == near(ampere_squared_seconds(90), hair));    // ip²·t/3
    CHECK(half_sine_let_through(20_A, 0.1_s) == near(ampere_squared_seconds(20), hair));    // ip²·t/2
    CHECK(exponential_let_through(20_A, 0.1_s) == near(ampere_squared_seconds(20), hair));  // ip²·t1/2
    // A compressor that starts with 30 A, falling to 5 A within half a second: (900 + 150 + 25)·0.5/3, by hand.
    CHECK(ramp_let_through(30_A, 5_A, 0.5_s) == near(ampere_squared_seconds(179.17), ampere_squared_seconds(0.005)));
    CHECK(ramp_let_through(5_A, 30_A, 0.5_s) == near(ampere_squared_seconds(179.17), ampere_squared_seconds(0.005)));
}

TEST_CASE("the share of its melting I2t that a pulse may have (a fuse maker's guide, read)") {
    struct {
        int pulses;
        double percent;
    } const printed[] = {{100, 48}, {1000, 38}, {10000, 29}, {100000, 22}};
    for (const auto& row : printed) {
        CAPTURE(row.pulses);
        const PulseShareRow* found = find_pulse_share(tables, row.pulses);
        REQUIRE(found);
        CHECK(found->pulses == row.pulses);
        CHECK(in_percent(found->share) == near(row.percent, 1e-9));
    }
    // Between the printed counts the next larger one is taken; beyond the last nothing is known.
    CHECK(find_pulse_share(tables, 101)->pulses == 1000);
    CHECK_FALSE(find_pulse_share(tables, 100001));
    CHECK_FALSE(pulse_endurance(tables, ampere_squared_seconds(1), 100001));
}

TEST_CASE("a compressor that starts ten thousand times needs a fuse of 617.8 A2s (worked out by hand at 29 %)") {
    const auto endurance = pulse_endurance(tables, ramp_let_through(30_A, 5_A, 0.5_s), 10000);
    REQUIRE(endurance);
    CHECK(endurance->melting == near(ampere_squared_seconds(617.8), ampere_squared_seconds(0.05)));
    CHECK(endurance->survived_by(ampere_squared_seconds(618)));
    CHECK_FALSE(endurance->survived_by(ampere_squared_seconds(617)));
    CHECK(endurance->share.source.standing == Standing::read);
}

TEST_CASE("a pulse is ridden through up to the least time of its peak (DIN 72581-3, read; ISO 8820-3, from memory)") {
    // Type E at twice its rating: never sooner than 2 s. Type C: 0.15 s.
    CHECK(rides_through(tables, "blade E", 30_A, 60_A, 1.999_s));
    CHECK_FALSE(rides_through(tables, "blade E", 30_A, 60_A, 2.001_s));
    CHECK(rides_through(tables, "blade", 30_A, 60_A, 0.149_s));
    CHECK_FALSE(rides_through(tables, "blade", 30_A, 60_A, 0.151_s));
}

// Laws of fuse times and of what cables stand, for every family that has limits.

#include "adiabatic.hpp"
#include "voltwright/circuit/fuse_time.hpp"
#include "testing.hpp"
#include "voltwright/circuit/withstand.hpp"
#include "voltwright/units/literals.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>

using namespace voltwright;
using namespace voltwright::literals;
using voltwright::testing::smallest_area;
using voltwright::testing::time_withstood;

namespace {

const Tables& tables = built_in_tables();

std::set<std::string_view> families() {
    std::set<std::string_view> all;
    for (const TimeLimitRow& row : tables.time_limits) all.insert(row.family);
    return all;
}

}  // namespace

TEST_CASE("more current never takes a fuse longer, and the least time is never above the most") {
    CHECK(families().size() == 6);
    for (const std::string_view family : families()) {
        CAPTURE(family);
        std::optional<FuseTime> before;
        for (double multiple = 0.1; multiple < 60.0; multiple *= 1.003) {
            CAPTURE(multiple);
            const FuseTime now = *fuse_time(tables, family, 40_A, amperes(40 * multiple));
            CHECK(now.at_least > 0_s);
            if (now.at_most) CHECK(now.at_least <= *now.at_most);
            if (before) {
                CHECK(now.at_least <= before->at_least * (1.0 + 1e-12));
                if (before->at_most) {
                    REQUIRE(now.at_most);
                    CHECK(*now.at_most <= *before->at_most * (1.0 + 1e-12));
                }
            }
            before = now;
        }
        CHECK(before->at_most);
    }
}

TEST_CASE("a time depends on the multiple of the rating alone") {
    for (const std::string_view family : families())
        for (const double multiple : {0.9, 1.35, 1.7, 2.0, 2.9, 4.4, 6.0, 25.0}) {
            CAPTURE(family);
            CAPTURE(multiple);
            const FuseTime small = *fuse_time(tables, family, 5_A, amperes(5 * multiple));
            const FuseTime large = *fuse_time(tables, family, 320_A, amperes(320 * multiple));
            CHECK(small.at_least == near(large.at_least, large.at_least * 1e-12));
            CHECK(small.at_most.has_value() == large.at_most.has_value());
            if (small.at_most) CHECK(*small.at_most == near(*large.at_most, *large.at_most * 1e-12));
        }
}

TEST_CASE("the current that is surely cleared is the inverse of the most time, both ways") {
    for (const std::string_view family : families()) {
        CAPTURE(family);
        for (double time = 0.001; time < 590.0; time *= 1.07) {
            CAPTURE(time);
            const Current clears = *surely_clears(tables, family, 60_A, seconds(time));
            CHECK(*fuse_time(tables, family, 60_A, clears * (1.0 + 1e-12))->at_most ==
                  near(seconds(time), seconds(1e-9 * time)));
            // Anything more is cleared sooner, anything less need not be.
            CHECK(*fuse_time(tables, family, 60_A, 1.001 * clears)->at_most < seconds(time));
            const auto less = fuse_time(tables, family, 60_A, 0.999 * clears);
            if (less->at_most) CHECK(*less->at_most > seconds(time));
        }
        // However long one waits, less than the first point that it must clear is not cleared for sure.
        const Current least = *surely_clears(tables, family, 60_A, hours(1000));
        CHECK(fuse_time(tables, family, 60_A, least * (1.0 + 1e-12))->at_most);
        CHECK_FALSE(fuse_time(tables, family, 60_A, 0.999 * least)->at_most);
    }
}

TEST_CASE("what is let through has no gap at a printed point, and beyond the last it stays the same") {
    for (const TimeLimitRow& row : tables.time_limits) {
        if (!row.at_most) continue;
        CAPTURE(row.family);
        CAPTURE(row.multiple);
        const Current at = row.multiple * 30_A;
        const JouleIntegral here = *let_through(tables, row.family, 30_A, at * (1.0 + 1e-12));
        const JouleIntegral above = *let_through(tables, row.family, 30_A, at * (1.0 + 1e-8));
        CHECK(above == near(here, here * 1e-6));
        if (const auto below = let_through(tables, row.family, 30_A, at * (1.0 - 1e-8)))
            CHECK(*below == near(here, here * 1e-6));
    }
    for (const std::string_view family : families()) {
        CAPTURE(family);
        const JouleIntegral far = *let_through(tables, family, 30_A, 600_A);
        CHECK(*let_through(tables, family, 30_A, 3000_A) == near(far, far * 1e-12));
    }
}

TEST_CASE("between two currents a fuse never lets more through than at the one that is named, by trying them all") {
    int inside = 0;
    for (const std::string_view family : families())
        for (const double from : {1.5, 1.9, 2.0, 2.2, 3.4, 4.0, 7.0})
            for (const double factor : {1.0, 1.1, 1.8, 4.0}) {
                CAPTURE(family);
                CAPTURE(from);
                CAPTURE(factor);
                const Current lowest = amperes(80 * from), highest = factor * lowest;
                const FuseTime worst = *most_let_through(tables, family, 80_A, lowest, highest);
                const JouleIntegral most = worst.current * worst.current * *worst.at_most;
                CHECK(worst.current >= lowest);
                CHECK(worst.current <= highest);
                JouleIntegral tried{};
                for (Current current = lowest; current <= highest; current *= 1.002)
                    tried = std::max(tried, *let_through(tables, family, 80_A, current));
                CHECK(tried <= most * (1.0 + 1e-12));
                CHECK(tried >= most * 0.99);
                if (worst.current > lowest && worst.current < highest) ++inside;
            }
    CHECK(inside > 0);
}

TEST_CASE("a fuse in front is never both slower and faster, and a larger one in front is no less selective") {
    for (const std::string_view family : families())
        for (const double fault : {30.0, 60.0, 120.0, 400.0, 1500.0}) {
            CAPTURE(family);
            CAPTURE(fault);
            bool before = false;
            for (const double front : {10.0, 20.0, 30.0, 50.0, 80.0, 150.0, 300.0}) {
                const bool now = *is_selective(tables, {family, amperes(front)}, {"blade", 10_A}, amperes(fault));
                CHECK((now || !before));
                const bool turned = *is_selective(tables, {"blade", 10_A}, {family, amperes(front)}, amperes(fault));
                CHECK_FALSE((now && turned));
                before = now;
            }
        }
}

TEST_CASE("nonsense gives no answer, never a number that is none") {
    for (const std::string_view family : families()) {
        CAPTURE(family);
        CHECK_FALSE(fuse_time(tables, family, 0_A, 10_A));
        CHECK_FALSE(fuse_time(tables, family, 0_A, 0_A));
        CHECK_FALSE(fuse_time(tables, family, -1.0 * 5_A, 10_A));
        CHECK_FALSE(fuse_time(tables, family, 10_A, 0_A)->at_most);
        CHECK_FALSE(fuse_time(tables, family, 10_A, -1.0 * 50_A)->at_most);
        CHECK_FALSE(surely_clears(tables, family, 10_A, -1.0 * 1_s));
        CHECK(std::isfinite(in_seconds(*fuse_time(tables, family, 10_A, 1e9_A)->at_most)));
    }
    CHECK_FALSE(fuse_time(Tables{}, "blade", 10_A, 100_A));
    CHECK_FALSE(fuse_time(tables, "no such family", 10_A, 100_A));
}

TEST_CASE("more copper, a cooler start and a better insulation each stand more, and the smallest area just holds") {
    for (const double start : {-20.0, 20.0, 60.0, 90.0, 105.0})
        for (const double limit : {140.0, 160.0, 200.0, 250.0, 350.0})
            for (const double area : {0.5, 2.5, 16.0, 107.0}) {
                CAPTURE(start);
                CAPTURE(limit);
                CAPTURE(area);
                const Withstand here =
                    withstand(square_millimetres(area), celsius(start), celsius(limit), 900_A, 0.4_s);
                CHECK(withstand(square_millimetres(area * 1.01), celsius(start), celsius(limit), 900_A, 0.4_s).allowed >
                      here.allowed);
                CHECK(withstand(square_millimetres(area), celsius(start + 1), celsius(limit), 900_A, 0.4_s).allowed <
                      here.allowed);
                CHECK(withstand(square_millimetres(area), celsius(start), celsius(limit + 1), 900_A, 0.4_s).allowed >
                      here.allowed);
                const Area smallest = *smallest_area(celsius(start), celsius(limit), here.allowed);
                CHECK(smallest == near(square_millimetres(area), square_millimetres(area * 1e-9)));
                const Duration time = *time_withstood(square_millimetres(area), celsius(start), celsius(limit), 900_A);
                CHECK(withstand(square_millimetres(area), celsius(start), celsius(limit), 900_A, time * 0.999).holds());
                CHECK_FALSE(
                    withstand(square_millimetres(area), celsius(start), celsius(limit), 900_A, time * 1.001).holds());
            }
}

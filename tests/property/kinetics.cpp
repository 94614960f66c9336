#include "testing.hpp"

#include "voltwright/energy/kinetics.hpp"
#include "voltwright/units/literals.hpp"

#include <vector>

namespace voltwright {

using namespace literals;

namespace {

constexpr Charge rated = ampere_hours(100);

/// From one well to a battery that gives a third of its charge in an hour, and wells that hardly level or do so at
/// once.
std::vector<Kinetics> batteries() {
    std::vector<Kinetics> all = {{1.0, ChargeRate{}, 1.0},     {0.5, ChargeRate{}, 1.0},  {0.3, per_hour(1e-12), 1.0},
                                 {0.3, per_hour(1e-5), 1.0},   {0.3, per_hour(1e4), 1.0}, {0.02, per_hour(0.5), 1.3},
                                 {0.999, per_hour(0.5), 1.001}};
    for (const double exponent : {1.0, 1.001, 1.05, 1.1, 1.15, 1.2, 1.25, 1.3, 1.4, 1.6, 2.0})
        all.push_back(kinetics_of_exponent(exponent));
    return all;
}

template <class Check>
void for_each_state(Check check) {
    for (const Kinetics& kinetics : batteries())
        for (const double level : {0.05, 0.3, 0.7, 1.0})
            for (const double bound_over_available : {0.5, 1.0, 1.2})
                for (const double out : {-40.0, -3.0, 0.0, 0.01, 5.0, 60.0}) {
                    CAPTURE(in_ratio(kinetics.available));
                    CAPTURE(in_per_hour(kinetics.rate));
                    CAPTURE(level);
                    CAPTURE(bound_over_available);
                    CAPTURE(out);
                    Wells wells = wells_at(kinetics, kinetics.whole * rated, level);
                    wells.bound *= bound_over_available;
                    check(wells, kinetics, amperes(out));
                }
}

constexpr Charge least = ampere_hours(1e-9);

}  // namespace

TEST_CASE("splitting a step of the kinetic battery changes nothing") {
    for_each_state([](Wells wells, const Kinetics& kinetics, Current out) {
        const Wells at_once = rested_step(wells, kinetics, out, 3_h);
        Wells in_parts = wells;
        for (const Duration& part : {1_s, 59_s, 29_min, 90_min, 1_h})
            in_parts = rested_step(in_parts, kinetics, out, part);
        CHECK(in_parts.available == near(at_once.available, least));
        CHECK(in_parts.bound == near(at_once.bound, least));
    });
}

TEST_CASE("the kinetic battery creates no charge and loses none") {
    for_each_state([](Wells wells, const Kinetics& kinetics, Current out) {
        for (const Duration& over : {1_s, 10_min, 5_h, 400_h}) {
            const Wells after = rested_step(wells, kinetics, out, over);
            CHECK(after.available + after.bound == near(wells.available + wells.bound - out * over, least));
        }
    });
}

TEST_CASE("a resting battery levels out and keeps the sum") {
    for_each_state([](Wells wells, const Kinetics& kinetics, Current) {
        const Charge all = wells.available + wells.bound;
        const Wells after = rested_step(wells, kinetics, 0_A, 3_h);
        const Charge level = kinetics.available * all;
        const auto off = [&](Wells each) {
            return each.available < level ? level - each.available : each.available - level;
        };
        CHECK(off(after) <= off(wells) + least);
        if (kinetics.rate > per_hour(0.3)) CHECK(off(rested_step(wells, kinetics, 0_A, 200_h)) <= least);
    });
}

TEST_CASE("more current never lasts longer, and the well is empty when it is said to be") {
    for_each_state([](Wells wells, const Kinetics& kinetics, Current) {
        std::optional<Duration> before;
        for (const double out : {0.05, 0.5, 2.0, 10.0, 40.0, 200.0}) {
            const auto empty = time_to_empty(wells, kinetics, amperes(out));
            REQUIRE(empty);
            if (before) CHECK(*empty <= *before);
            before = empty;
            CHECK(rested_step(wells, kinetics, amperes(out), *empty).available == near(Charge{}, ampere_hours(1e-8)));
            // Not sooner: charge is left on the whole way there.
            for (const double share : {0.1, 0.5, 0.9, 0.999})
                CHECK(rested_step(wells, kinetics, amperes(out), share * *empty).available > Charge{});
            // Not after all there is, nor, where the bound well stands no lower, before the available one is drawn
            // down.
            CHECK(*empty <= (wells.available + wells.bound) / amperes(out) * (1 + 1e-9));
            if (wells.bound * kinetics.available >= wells.available * (1.0 - kinetics.available))
                CHECK(*empty >= wells.available / amperes(out) * (1 - 1e-9));
        }
    });
}

TEST_CASE("the largest currents of a step end it just empty and just full") {
    for_each_state([](Wells wells, const Kinetics& kinetics, Current) {
        const Charge whole = kinetics.whole * rated;
        for (const Duration& over : {1_min, 2_h}) {
            const Current most = largest_discharge(wells, kinetics, over);
            CHECK(rested_step(wells, kinetics, most, over).available == near(Charge{}, least));
            const Current charging = largest_charge(wells, kinetics, whole, over);
            CHECK(rested_step(wells, kinetics, charging, over).available == near(kinetics.available * whole, least));
        }
    });
}

TEST_CASE("a battery that nothing is drawn from does not run empty, and an empty one is empty at once") {
    const Kinetics kinetics = kinetics_of_exponent(1.2);
    CHECK_FALSE(time_to_empty(full_wells(kinetics, rated), kinetics, 0_A));
    CHECK_FALSE(time_to_empty(full_wells(kinetics, rated), kinetics, amperes(-5)));
    CHECK(time_to_empty({Charge{}, 50_Ah}, kinetics, 5_A) == Duration{});
}

TEST_CASE("what a fitted battery delivers meets Peukert's law at the three rates and falls with the rate") {
    for (int percents = 100; percents <= 300; percents += 5) {
        const double exponent = percents / 100.0;
        CAPTURE(exponent);
        const Kinetics kinetics = kinetics_of_exponent(exponent);
        for (const Duration& over : {20_h, 5_h, 1_h})
            CHECK(kinetic_charge(kinetics, rated, over) ==
                  near(peukert_capacity(rated, 20_h, exponent, over), ampere_hours(1e-7)));
        Charge before{};
        for (const Duration& over : {6_min, 30_min, 2_h, 10_h, 100_h, 1000_h}) {
            const Charge delivered = kinetic_charge(kinetics, rated, over);
            CHECK(delivered >= before);
            CHECK(delivered <= kinetics.whole * rated * (1 + 1e-12));
            before = delivered;
            const auto empty = time_to_empty(full_wells(kinetics, kinetics.whole * rated), kinetics, delivered / over);
            REQUIRE(empty);
            CHECK(*empty == near(over, 1e-6 * over));
        }
    }
}

TEST_CASE("charges that no two wells deliver are not fitted") {
    CHECK(fit_kinetics(100_Ah, 85_Ah, 60_Ah));
    CHECK_FALSE(fit_kinetics(100_Ah, 105_Ah, 60_Ah));
    CHECK_FALSE(fit_kinetics(100_Ah, 85_Ah, 90_Ah));
    CHECK_FALSE(fit_kinetics(100_Ah, 85_Ah, 0_Ah));
    CHECK_FALSE(fit_kinetics(0_Ah, 0_Ah, 0_Ah));
    CHECK_FALSE(fit_kinetics(100_Ah, 100_Ah, 60_Ah));
    CHECK_FALSE(fit_kinetics(100_Ah, 60_Ah, 60_Ah));
    CHECK_FALSE(fit_kinetics(100_Ah, 99_Ah, 30_Ah));

    const auto alike = fit_kinetics(100_Ah, 100_Ah, 100_Ah);
    REQUIRE(alike);
    CHECK(in_ratio(alike->available) == near(1.0, 1e-12));
}

TEST_CASE("below its rated current a battery is not credited with more than its rated charge") {
    for (const double exponent : {1.0, 1.1, 1.3}) {
        CAPTURE(exponent);
        CHECK(capped_peukert_time(rated, 20_h, exponent, 5_A) == near(20_h, seconds(0.001)));
        CHECK(capped_peukert_time(rated, 20_h, exponent, 1_A) == near(100_h, seconds(0.001)));
        CHECK(peukert_time(rated, 20_h, exponent, 1_A) >= 100_h - seconds(0.001));
        CHECK(capped_peukert_time(rated, 20_h, exponent, 20_A) == peukert_time(rated, 20_h, exponent, 20_A));
    }
}

}  // namespace voltwright

#include "kinetic_steps.hpp"
#include "testing.hpp"

#include "voltwright/energy/kinetic_fit.hpp"
#include "voltwright/units/literals.hpp"

#include <vector>

namespace voltwright {

using namespace literals;
using testing::constant_current_step;
using testing::full_state;
using testing::published_step;
using testing::time_to_empty;

namespace {

constexpr Charge rated = ampere_hours(100);

/// From one well to a battery that gives a third of its charge in an hour, and wells that hardly level or do so at
/// once.
std::vector<KineticParameters> batteries() {
    std::vector<KineticParameters> all = {
        {1.0, ChargeRate{}, 1.0},  {0.5, ChargeRate{}, 1.0},   {0.3, per_hour(1e-12), 1.0},  {0.3, per_hour(1e-5), 1.0},
        {0.3, per_hour(1e4), 1.0}, {0.02, per_hour(0.5), 1.3}, {0.999, per_hour(0.5), 1.001}};
    for (const double exponent : {1.0, 1.001, 1.05, 1.1, 1.15, 1.2, 1.25, 1.3, 1.4, 1.6, 2.0})
        all.push_back(kinetics_of_exponent(exponent));
    return all;
}

template <class Check>
void for_each_state(Check check) {
    for (const KineticParameters& kinetics : batteries())
        for (const double level : {0.05, 0.3, 0.7, 1.0})
            for (const double bound_over_available : {0.5, 1.0, 1.2})
                for (const double out : {-40.0, -3.0, 0.0, 0.01, 5.0, 60.0}) {
                    CAPTURE(in_ratio(kinetics.available));
                    CAPTURE(in_per_hour(kinetics.rate));
                    CAPTURE(level);
                    CAPTURE(bound_over_available);
                    CAPTURE(out);
                    KineticState state = kinetic_state_at(kinetics, kinetics.whole * rated, level);
                    state.bound *= bound_over_available;
                    check(state, kinetics, amperes(out));
                }
}

constexpr Charge least = ampere_hours(1e-9);

/// Available and bound charge that come to one level within a second exchange thousands of times the load's current: as many
/// digits of the step are lost.
Charge allowed(const KineticParameters& kinetics) { return kinetics.rate > per_hour(1e3) ? ampere_hours(1e-6) : least; }

}  // namespace

TEST_CASE("at a constant current the step is the published closed form") {
    for_each_state([](KineticState state, const KineticParameters& kinetics, Current out) {
        for (const Duration& over : {1_s, 10_min, 5_h, 400_h}) {
            const KineticState found = constant_current_step(state, kinetics, out, over);
            const KineticState published = published_step(state, kinetics, out, over);
            CHECK(found.available == near(published.available, allowed(kinetics)));
            CHECK(found.bound == near(published.bound, allowed(kinetics)));
        }
    });
}

TEST_CASE("splitting a step of the kinetic battery changes nothing") {
    for_each_state([](KineticState state, const KineticParameters& kinetics, Current out) {
        const KineticState at_once = constant_current_step(state, kinetics, out, 3_h);
        KineticState in_parts = state;
        for (const Duration& part : {1_s, 59_s, 29_min, 90_min, 1_h})
            in_parts = constant_current_step(in_parts, kinetics, out, part);
        CHECK(in_parts.available == near(at_once.available, allowed(kinetics)));
        CHECK(in_parts.bound == near(at_once.bound, allowed(kinetics)));
    });
}

TEST_CASE("the kinetic battery creates no charge and loses none") {
    for_each_state([](KineticState state, const KineticParameters& kinetics, Current out) {
        for (const Duration& over : {1_s, 10_min, 5_h, 400_h}) {
            const KineticState after = constant_current_step(state, kinetics, out, over);
            CHECK(after.available + after.bound == near(state.available + state.bound - out * over, allowed(kinetics)));
        }
    });
}

TEST_CASE("a resting battery levels out and keeps the sum") {
    for_each_state([](KineticState state, const KineticParameters& kinetics, Current) {
        const Charge all = state.available + state.bound;
        const KineticState after = constant_current_step(state, kinetics, 0_A, 3_h);
        const Charge level = kinetics.available * all;
        const auto off = [&](KineticState each) {
            return each.available < level ? level - each.available : each.available - level;
        };
        CHECK(off(after) <= off(state) + allowed(kinetics));
        if (kinetics.rate > per_hour(0.3))
            CHECK(off(constant_current_step(state, kinetics, 0_A, 200_h)) <= allowed(kinetics));
    });
}

TEST_CASE("more current never lasts longer, and the well is empty when it is said to be") {
    for_each_state([](KineticState state, const KineticParameters& kinetics, Current) {
        std::optional<Duration> before;
        for (const double out : {0.05, 0.5, 2.0, 10.0, 40.0, 200.0}) {
            const auto empty = time_to_empty(state, kinetics, amperes(out));
            REQUIRE(empty);
            if (before) CHECK(*empty <= *before);
            before = empty;
            CHECK(constant_current_step(state, kinetics, amperes(out), *empty).available ==
                  near(Charge{}, ampere_hours(1e-8)));
            // Not sooner: charge is left on the whole way there.
            for (const double share : {0.1, 0.5, 0.9, 0.999})
                CHECK(constant_current_step(state, kinetics, amperes(out), share * *empty).available > Charge{});
            // Not after all there is, nor, where the bound well stands no lower, before the available one is drawn
            // down.
            CHECK(*empty <= (state.available + state.bound) / amperes(out) * (1 + 1e-9));
            if (state.bound * kinetics.available >= state.available * (1.0 - kinetics.available))
                CHECK(*empty >= state.available / amperes(out) * (1 - 1e-9));
        }
    });
}

TEST_CASE("a battery that nothing is drawn from does not run empty, and an empty one is empty at once") {
    const KineticParameters kinetics = kinetics_of_exponent(1.2);
    CHECK_FALSE(time_to_empty(full_state(kinetics, rated), kinetics, 0_A));
    CHECK_FALSE(time_to_empty(full_state(kinetics, rated), kinetics, amperes(-5)));
    CHECK(time_to_empty({Charge{}, 50_Ah}, kinetics, 5_A) == Duration{});
}

TEST_CASE("what a fitted battery delivers meets Peukert's law at the three rates and falls with the rate") {
    for (int percents = 100; percents <= 300; percents += 5) {
        const double exponent = percents / 100.0;
        CAPTURE(exponent);
        const KineticParameters kinetics = kinetics_of_exponent(exponent);
        for (const Duration& over : {20_h, 5_h, 1_h})
            CHECK(kinetic_charge(kinetics, rated, over) ==
                  near(peukert_capacity(rated, 20_h, exponent, over), ampere_hours(1e-7)));
        Charge before{};
        for (const Duration& over : {6_min, 30_min, 2_h, 10_h, 100_h, 1000_h}) {
            const Charge delivered = kinetic_charge(kinetics, rated, over);
            CHECK(delivered >= before);
            CHECK(delivered <= kinetics.whole * rated * (1 + 1e-12));
            before = delivered;
            const auto empty = time_to_empty(full_state(kinetics, kinetics.whole * rated), kinetics, delivered / over);
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

}  // namespace voltwright

#include "testing.hpp"

#include "voltwright/energy/fridge_description.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/literals.hpp"

namespace voltwright {

using namespace literals;

namespace {

const FridgeRow& row() { return built_in_tables().fridges.front(); }

Power at(const Fridge& fridge, Temperature around, Temperature inside = 5_degC) {
    return fridge_power(fridge, around, inside, row());
}

}  // namespace

TEST_CASE("a fridge fitted to one point takes there what was measured, whatever share is assumed") {
    for (const double share : {0.0, 0.25, 0.45})
        for (const Temperature& around : {16_degC, 25_degC, 32_degC, 43_degC}) {
            CAPTURE(share);
            CAPTURE(in_celsius(around));
            const Fridge fridge = fit_fridge({around, 5_degC, 11_W}, ratio(share), row());
            CHECK(at(fridge, around) == near(11_W, watts(1e-9)));
            CHECK(fridge.fit == FridgeFit::assumed_share);
            CHECK_FALSE(fridge.by_rule_of_thumb);
        }
}

TEST_CASE("the fixed share is a share of the power at 25 degC, wherever the fridge was rated") {
    const Fridge at_25 = fit_fridge({25_degC, 5_degC, 12_W}, percent(25), row());
    CHECK(at_25.fixed == near(3_W, watts(1e-9)));
    const Fridge at_32 = fit_fridge({32_degC, 5_degC, at(at_25, 32_degC)}, percent(25), row());
    CHECK(at_32.fixed == near(3_W, watts(1e-9)));
    CHECK(at_32.wall == near(at_25.wall, watts_per_kelvin(1e-9)));
}

TEST_CASE("a fridge fitted to two points takes at both what was measured, in whichever order they come") {
    const RatedPoint cool{20_degC, 5_degC, 9_W}, hot{32_degC, 4_degC, 19_W};
    for (const Fridge& fridge : {fit_fridge(cool, hot, row()), fit_fridge(hot, cool, row())}) {
        CHECK(fridge.fit == FridgeFit::two_points);
        CHECK(at(fridge, 20_degC, 5_degC) == near(9_W, watts(1e-9)));
        CHECK(at(fridge, 32_degC, 4_degC) == near(19_W, watts(1e-9)));
        CHECK(fridge.fixed > Power{});
    }
}

TEST_CASE("two equal points count as one") {
    const RatedPoint point{25_degC, 5_degC, 12_W};
    const Fridge one = fit_fridge(point, row().fixed_share, row()), two = fit_fridge(point, point, row());
    CHECK(two.fit == FridgeFit::assumed_share);
    CHECK(two.fixed == near(one.fixed, watts(1e-9)));
    CHECK(two.wall == near(one.wall, watts_per_kelvin(1e-9)));
    // Two measurements at one temperature that differ: the middle.
    const Fridge middle = fit_fridge({25_degC, 5_degC, 10_W}, {25_degC, 5_degC, 14_W}, row());
    CHECK(middle.fit == FridgeFit::assumed_share);
    CHECK(at(middle, 25_degC) == near(12_W, watts(1e-9)));
}

TEST_CASE("two points steeper than any walls leave no fixed part, and the fit runs between them") {
    const Fridge fridge = fit_fridge({20_degC, 5_degC, 4_W}, {32_degC, 5_degC, 24_W}, row());
    CHECK(fridge.fit == FridgeFit::no_fixed_part);
    CHECK(fridge.fixed == near(0_W, watts(1e-12)));
    CHECK(at(fridge, 20_degC) > 4_W);
    CHECK(at(fridge, 32_degC) < 24_W);
}

TEST_CASE("a hotter point that takes less contradicts the cooler one, and the fit still rises with the heat") {
    for (const Power& hot : {14_W, 12_W}) {
        const Fridge fridge = fit_fridge({20_degC, 5_degC, 14_W}, {32_degC, 5_degC, hot}, row());
        CHECK(fridge.fit == FridgeFit::contradicting);
        CHECK(fridge.wall > ThermalConductance{});
        CHECK(fridge.fixed > Power{});
        CHECK(at(fridge, 20_degC) < 14_W);
        CHECK(at(fridge, 32_degC) > hot);
    }
}

TEST_CASE("surroundings as cold as the inside, or colder, leave the fixed part") {
    const Fridge fridge = fit_fridge({25_degC, 5_degC, 12_W}, percent(25), row());
    for (const Temperature& around : {5_degC, 4_degC, celsius(-25), celsius(-40)}) {
        CAPTURE(in_celsius(around));
        CHECK(at(fridge, around) == near(3_W, watts(1e-9)));
    }
}

TEST_CASE("a fridge rated where nothing heats it is fitted without dividing by nothing") {
    const Fridge fixed_only = fit_fridge({4_degC, 5_degC, 3_W}, ratio(0.0), row());
    CHECK(fixed_only.fixed == near(3_W, watts(1e-9)));
    CHECK(fixed_only.wall == near(ThermalConductance{}, watts_per_kelvin(1e-12)));
    // With the usual share, a cold rating is that share of what it takes at 25 degC.
    const Fridge fridge = fit_fridge({4_degC, 5_degC, 3_W}, percent(25), row());
    CHECK(at(fridge, 25_degC) == near(12_W, watts(1e-9)));
}

TEST_CASE("a fridge known by its volume is marked, and needs more than one with better walls") {
    const Fridge fridge = fridge_by_volume(50_L, row());
    CHECK(fridge.by_rule_of_thumb);
    CHECK(fridge.fixed / at(fridge, 25_degC) == near(percent(33), percent(1e-6)));
    CHECK(in_watts_per_kelvin(fridge.wall * row().efficiency) == near(1.0, 1e-9));
    CHECK(at(fridge_by_volume(50_L, row().wall_low, row().fixed_share, row()), 30_degC) < at(fridge, 30_degC));
}

TEST_CASE("eight times the volume has four times the walls") {
    const Fridge small = fridge_by_volume(20_L, row()), large = fridge_by_volume(160_L, row());
    CHECK(in_ratio(large.wall / small.wall) == near(4.0, 1e-9));
    CHECK(in_ratio(at(large, 31_degC) / at(small, 31_degC)) == near(4.0, 1e-9));
}

TEST_CASE("a compressor too small for the heat would have to run for more than all of the time") {
    const Fridge fridge = fit_fridge({25_degC, 5_degC, 20_W}, percent(25), row());
    const FridgeDuty cool = fridge_duty(fridge, 40_W, 25_degC, 5_degC, row());
    CHECK(cool.duty == near(percent(50), percent(1e-9)));
    CHECK(cool.holds);
    const FridgeDuty hot = fridge_duty(fridge, 40_W, 50_degC, 5_degC, row());
    CHECK(hot.duty > percent(100));
    CHECK_FALSE(hot.holds);
    CHECK(hot.power > 40_W);
}

TEST_CASE("warm things put in cost more in hotter surroundings and in a colder fridge") {
    const Restocking usual = restocking(5_kg, 25_degC, 5_degC, 25_degC, row());
    CHECK(restocking(5_kg, 25_degC, 5_degC, 35_degC, row()).electric > usual.electric);
    CHECK(restocking(5_kg, 25_degC, 2_degC, 25_degC, row()).electric > usual.electric);
    CHECK(usual.freezing == near(0_Wh, watt_hours(1e-12)));
    CHECK(usual.heat == near(usual.cooling, watt_hours(1e-12)));
}

TEST_CASE("cold things put in are no credit, and what is frozen already is not frozen again") {
    for (const Temperature& from : {5_degC, 3_degC, celsius(-20)}) {
        const Restocking cold = restocking(5_kg, from, 5_degC, 25_degC, row());
        CHECK(cold.heat == near(0_Wh, watt_hours(1e-12)));
        CHECK(cold.electric == near(0_Wh, watt_hours(1e-12)));
    }
    CHECK(restocking(5_kg, celsius(-2), celsius(-18), 25_degC, row()).freezing == near(0_Wh, watt_hours(1e-12)));
    CHECK(restocking(5_kg, 1_degC, celsius(-18), 25_degC, row()).freezing > 400_Wh);
}

TEST_CASE("a fridge's duty explains itself from the same rows as its answer") {
    const Fridge fridge = fit_fridge({25_degC, 5_degC, 12_W}, percent(25), row());
    const Explanation duty = explain(fridge_duty(fridge, 45_W, 25_degC, 5_degC, row()));
    CHECK(std::get<Measure>(duty.value) == Measure{fridge_duty(fridge, 45_W, 25_degC, 5_degC, row()).power});
    CHECK(duty.parts.size() == 9);
    CHECK(find_part(duty, "duty_percent"));
    CHECK(find_part(explain(fridge), "known from"));
    CHECK(explain(restocking(5_kg, 25_degC, 5_degC, 25_degC, row())).parts.size() == 10);
}

TEST_CASE("every guard starts again well above where it stops") {
    for (const FridgeGuardRow& guard : built_in_tables().fridge_guards) {
        CAPTURE(guard.setting);
        CHECK(guard.cut_in - guard.cut_out >= 1_V);
        CHECK(find_printed_table(built_in_tables(), guard.source.table));
    }
    CHECK_FALSE(find_fridge_guard(built_in_tables(), "medium"));
}

TEST_CASE("the fridge table and the lags say where their figures come from") {
    REQUIRE(built_in_tables().fridges.size() == 1);
    CHECK(find_printed_table(built_in_tables(), row().source.table));
    CHECK_FALSE(row().source.note.empty());
    const LagRow* battery = find_lag(built_in_tables(), "battery");
    REQUIRE(battery);
    CHECK(battery->source.standing == Standing::common_practice);
    CHECK(find_printed_table(built_in_tables(), battery->source.table));
    CHECK_FALSE(find_lag(built_in_tables(), "kettle"));
}

}  // namespace voltwright

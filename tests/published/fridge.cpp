#include "testing.hpp"

#include "voltwright/energy/fridge.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/literals.hpp"

#include <vector>

namespace voltwright {

using namespace literals;

namespace {

const FridgeRow& row() { return built_in_tables().fridges.front(); }

/// Only walls, of this conductance, and a share of the ideal as usual.
Fridge only_walls(double watts_for_a_kelvin) {
    return {Power{}, watts_per_kelvin(watts_for_a_kelvin) / row().efficiency, FridgeFit::two_points, false};
}

double daily_ratio(Ratio fixed_share, Temperature inside) {
    const Fridge fridge = fit_fridge({25_degC, inside, 12_W}, fixed_share, row());
    return in_ratio(fridge_power(fridge, 32_degC, inside, row()) / fridge_power(fridge, 16_degC, inside, row()));
}

}  // namespace

// EU 2019/2016, Annex IV: r_c = (24 °C − T_c)/20 for a compartment held at T_c, the heat that its walls let in against
// that of fresh food at 4 °C. 17, 12, -12 and -18 °C read; the others recomputed from the regulation's formula.
TEST_CASE("fridge: heat through the walls of a compartment, EU 2019/2016, Annex IV") {
    struct Printed {
        double inside, r_c;
    };
    const Fridge fridge = only_walls(1.0);
    const auto heat = [&](Temperature inside) {
        const FridgeDuty duty = fridge_duty(fridge, 60_W, 24_degC, inside, row());
        return duty.power / duty.ideal_work;
    };
    for (const Printed& printed : {Printed{17, 0.35}, Printed{12, 0.60}, Printed{4, 1.00}, Printed{2, 1.10},
                                   Printed{0, 1.20}, Printed{-6, 1.50}, Printed{-12, 1.80}, Printed{-18, 2.10}}) {
        CAPTURE(printed.inside);
        CHECK(in_ratio(heat(celsius(printed.inside)) / heat(4_degC)) == near(printed.r_c, 0.005));
    }
}

// Recomputed from the textbook relations, by another program than this: UA = 1 W/K, 4 °C inside, 15 K at each end, 0.35
// of the ideal, 0 °C = 273.15 K.
TEST_CASE("fridge: heat, coefficient of performance and daily use at five temperatures, recomputed") {
    struct Recomputed {
        double around, heat, cop, power, watt_hours, ampere_hours;
    };
    for (const Recomputed& line :
         {Recomputed{16, 12.0, 2.185, 5.493, 131.833, 10.986}, Recomputed{20, 16.0, 1.995, 8.022, 192.518, 16.043},
          Recomputed{25, 21.0, 1.799, 11.673, 280.145, 23.345}, Recomputed{32, 28.0, 1.582, 17.700, 424.795, 35.400},
          Recomputed{43, 39.0, 1.330, 29.329, 703.894, 58.658}}) {
        CAPTURE(line.around);
        const FridgeDuty duty = fridge_duty(only_walls(1.0), 60_W, celsius(line.around), 4_degC, row());
        const double cop = in_ratio(row().efficiency / duty.ideal_work);
        const Energy day = duty.power * hours(24);
        CHECK(duty.power * cop == near(watts(line.heat), watts(0.05)));
        CHECK(cop == near(line.cop, 0.0005));
        CHECK(duty.power == near(watts(line.power), watts(0.0005)));
        CHECK(in_watt_hours(day) == near(line.watt_hours, 0.0005));
        CHECK(in_ampere_hours(day / nominal_voltage) == near(line.ampere_hours, 0.0005));
        // Back from the day to the mean: both figures are rounded.
        CHECK(mean_power(ampere_hours(line.ampere_hours)) == near(watts(line.power), watts(0.0008)));
        CHECK(mean_power(watt_hours(line.watt_hours)) == near(watts(line.power), watts(0.0005)));
    }
}

// The same relations: 32 °C against 16 °C, with no fixed part, is 3.2222, of which 1.3810 from the efficiency.
TEST_CASE("fridge: 32 degC against 16 degC without a fixed part, recomputed") {
    const FridgeDuty cool = fridge_duty(only_walls(1.0), 60_W, 16_degC, 4_degC, row());
    const FridgeDuty hot = fridge_duty(only_walls(1.0), 60_W, 32_degC, 4_degC, row());
    CHECK(in_ratio(hot.power / cool.power) == near(3.2222, 0.00005));
    CHECK(in_ratio(hot.ideal_work / cool.ideal_work) == near(1.3810, 0.00005));
    CHECK(in_ratio(hot.power / hot.ideal_work / (cool.power / cool.ideal_work)) == near(2.3333, 0.00005));
}

// Test reports on appliances after IEC 62552-3 (32 °C and 16 °C): 2.0 to 2.6 between the two days, from memory. The usual
// fixed share gives about 2.3 (recomputed); the band that may be drawn from reaches beyond both ends.
TEST_CASE("fridge: 32 degC takes 2.0 to 2.6 times what 16 degC takes with the usual fixed share, from memory") {
    for (const Temperature& inside : {0_degC, 2_degC, 4_degC, 5_degC}) {
        CAPTURE(in_celsius(inside));
        CHECK(daily_ratio(row().fixed_share, inside) >= 2.0);
        CHECK(daily_ratio(row().fixed_share, inside) <= 2.6);
    }
    CHECK(daily_ratio(row().fixed_share, 4_degC) == near(2.3, 0.05));
    CHECK(daily_ratio(row().fixed_share_high, 4_degC) < 2.0);
    CHECK(daily_ratio(row().fixed_share_low, 4_degC) > 2.6);
}

// IEC 62552-3 (read in outline) weighs the days at 16 and 32 °C by a straight line between them; EU 2019/2016 (from
// memory) takes the middle, 24 °C. The models differ: ours bends, since the efficiency falls as it gets hotter, so it
// lies below the line, by less than 7 % for the usual fixed share (recomputed: 4.5 % at 24 °C with 4 °C inside).
TEST_CASE("fridge: between 16 and 32 degC close below the straight line of IEC 62552-3") {
    for (const Temperature& inside : {0_degC, 4_degC, 5_degC, 8_degC}) {
        const Fridge fridge = fit_fridge({25_degC, inside, 12_W}, row().fixed_share, row());
        const auto power = [&](Temperature around) { return fridge_power(fridge, around, inside, row()); };
        for (const double around : {18.0, 20.0, 24.0, 28.0, 30.0}) {
            CAPTURE(around);
            const double weight = (around - 16.0) / 16.0;
            const Power line = (1.0 - weight) * power(16_degC) + weight * power(32_degC);
            CHECK(power(celsius(around)) <= line);
            CHECK(power(celsius(around)) >= 0.93 * line);
        }
    }
}

// ECN-C--01-064, ECN 2001 (abstract read): a chest freezer of 135 L, run as a cooler, took 295 Wh a day at 32 °C. With
// 5 °C inside (which the abstract does not tell) its walls come to 0.7356 W/K (recomputed).
TEST_CASE("fridge: walls of a cooler that takes 295 Wh a day at 32 degC, ECN-C--01-064") {
    const Fridge fridge = fit_fridge({32_degC, 5_degC, mean_power(295_Wh)}, ratio(0.0), row());
    CHECK(in_watts_per_kelvin(fridge.wall * row().efficiency) == near(0.7356, 0.00005));
    CHECK(in_ampere_hours(mean_power(295_Wh) * hours(24) / nominal_voltage) == near(24.6, 0.05));
    // A thick-walled chest: the rule of thumb is for portable fridges and asks for far more, never for less.
    CHECK(fridge_power(fridge_by_volume(135_L, row()), 32_degC, 5_degC, row()) > mean_power(295_Wh));
}

// A magazine's test of ten portable fridges in a chamber, quoted in a forum in 2003 (read, weak): mean current over a day
// that begins at 15 °C, climbs to 55 °C, holds it for 2 h and falls again. Without the one outlier (5.6 A) they took 1.6
// to 2.8 A, 38 to 67 Ah a day. The ramps' length and the temperature inside are not told: here 11 h each, and 5 °C.
TEST_CASE("fridge: the rule of thumb lies among ten portable fridges in a hot chamber, a magazine's test of 2003") {
    struct Tested {
        double litres, amperes;
    };
    const std::vector<Tested> tested = {{50, 1.9}, {40, 2.0}, {42, 1.6}, {42, 1.6}, {35, 1.6},
                                        {41, 2.3}, {45, 2.4}, {39, 2.4}, {40, 2.8}};
    const auto mean_current = [](const Fridge& fridge) {
        Energy taken{};
        for (int minute = 0; minute < 24 * 60; ++minute) {
            const double hour = (minute + 0.5) / 60.0;
            const double climbed = hour < 11 ? hour / 11 : hour < 13 ? 1.0 : (24 - hour) / 11;
            taken += fridge_power(fridge, celsius(15 + 40 * climbed), 5_degC, row()) * minutes(1);
        }
        return taken / hours(24) / nominal_voltage;
    };
    Current by_rule{}, measured{};
    for (const Tested& fridge : tested) {
        CAPTURE(fridge.litres);
        const Current current = mean_current(fridge_by_volume(litres(fridge.litres), row()));
        CHECK(current >= amperes(1.6));
        CHECK(current <= amperes(2.8));
        CHECK(in_ampere_hours(current * hours(24)) >= 38.0);
        CHECK(in_ampere_hours(current * hours(24)) <= 67.5);
        by_rule += current;
        measured += amperes(fridge.amperes);
    }
    CHECK(by_rule >= 0.85 * measured);
    CHECK(by_rule <= 1.15 * measured);
    // The lower end of the recalled walls would have promised too much to nearly all of them.
    const Fridge modern = fridge_by_volume(42_L, row().wall_low, row().fixed_share, row());
    CHECK(mean_current(modern) < amperes(1.6));
}

// Textbook constants, from memory: water 4.186 kJ/(kg K), ice 2.05 kJ/(kg K), melting 334 kJ/kg.
TEST_CASE("fridge: heat of water, of ice and of freezing, textbook constants") {
    CHECK(in_kilojoules_per_kilogram_kelvin(row().water) == near(4.186, 0.0005));
    CHECK(in_kilojoules_per_kilogram_kelvin(row().ice) == near(2.05, 0.005));
    CHECK(in_kilojoules_per_kilogram(row().freezing) == near(334.0, 0.5));
    CHECK(in_joules(restocking(1_kg, 5_degC, 4_degC, 20_degC, row()).heat) == near(4186.0, 0.5));
    CHECK(in_joules(restocking(1_kg, celsius(-4), celsius(-5), 20_degC, row()).heat) == near(2050.0, 5.0));
}

// Recomputed from those constants, at a coefficient of performance of 1.5: 12 kg of drinks from 25 to 4 °C, and 2 kg of
// water from 20 °C to ice at -5 °C.
TEST_CASE("fridge: cooling drinks and freezing water, recomputed") {
    // The share of the ideal that makes it 1.5 there.
    const auto at_1_5 = [](Temperature inside) {
        FridgeRow changed = row();
        changed.efficiency = 1.5 * restocking(1_kg, 30_degC, inside, 25_degC, row()).ideal_work;
        return changed;
    };
    const Restocking drinks = restocking(12_kg, 25_degC, 4_degC, 25_degC, at_1_5(4_degC));
    CHECK(in_joules(drinks.heat) == near(1054872.0, 0.5));
    CHECK(in_watt_hours(drinks.heat) == near(293.02, 0.005));
    CHECK(in_watt_hours(drinks.electric) == near(195.35, 0.005));
    CHECK(in_ampere_hours(drinks.electric / nominal_voltage) == near(16.28, 0.005));

    const Restocking water = restocking(2_kg, 20_degC, celsius(-5), 25_degC, at_1_5(celsius(-5)));
    CHECK(in_watt_hours(water.heat) == near(237.76, 0.005));
    CHECK(in_watt_hours(water.electric) == near(158.51, 0.005));
    CHECK(in_ampere_hours(water.electric / nominal_voltage) == near(13.21, 0.005));
}

// The table's own coefficients of performance, for heat that is put in instead of let in.
TEST_CASE("fridge: cooling down costs what the coefficient of performance says, recomputed") {
    for (const auto& [around, cop] : {std::pair{16, 2.185}, {20, 1.995}, {25, 1.799}, {32, 1.582}, {43, 1.330}}) {
        CAPTURE(around);
        const Restocking drinks = restocking(12_kg, 25_degC, 4_degC, celsius(around), row());
        CHECK(in_ratio(drinks.heat / drinks.electric) == near(cop, 0.0005));
    }
}

// Seven user manuals and a maker's help page for compressor refrigerators, 12 V (read).
TEST_CASE("fridge guards: cut-out and cut-in of the usual settings, user manuals") {
    struct Printed {
        std::string_view setting;
        double cut_out, cut_in;
    };
    CHECK(built_in_tables().fridge_guards.size() == 3);
    for (const Printed& printed :
         {Printed{"low", 9.6, 10.9}, Printed{"standard", 10.4, 11.7}, Printed{"high", 11.3, 12.5}}) {
        CAPTURE(printed.setting);
        const FridgeGuardRow* guard = find_fridge_guard(built_in_tables(), printed.setting);
        REQUIRE(guard);
        CHECK(guard->cut_out == near(volts(printed.cut_out), volts(0.05)));
        CHECK(guard->cut_in == near(volts(printed.cut_in), volts(0.05)));
        CHECK(guard->source.standing == Standing::read);
    }
}

}  // namespace voltwright

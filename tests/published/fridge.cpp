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
        CHECK(mean_power(ampere_hours(line.ampere_hours), nominal_voltage) == near(watts(line.power), watts(0.0008)));
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

// Test reports on appliances after IEC 62552-3 (32 °C and 16 °C): 2.0 to 2.6 between the two days, from memory; fresh food is
// held at 4 °C there (EU 2019/2016, read). The usual fixed share gives about 2.1 (recomputed): what was timed on chests of the
// kind, below, asks for the lower end. The band that may be drawn from reaches beyond both ends.
TEST_CASE("fridge: 32 degC takes 2.0 to 2.6 times what 16 degC takes with the usual fixed share, from memory") {
    for (const Temperature& inside : {4_degC, 5_degC}) {
        CAPTURE(in_celsius(inside));
        CHECK(daily_ratio(row().fixed_share, inside) >= 2.0);
        CHECK(daily_ratio(row().fixed_share, inside) <= 2.6);
    }
    CHECK(daily_ratio(row().fixed_share, 4_degC) == near(2.1, 0.05));
    CHECK(daily_ratio(row().fixed_share_high, 4_degC) < 2.0);
    CHECK(daily_ratio(row().fixed_share_low, 4_degC) > 2.6);
}

// IEC 62552-3 (read in outline) weighs the days at 16 and 32 °C by a straight line between them; EU 2019/2016 (from
// memory) takes the middle, 24 °C. The models differ: ours bends, since the efficiency falls as it gets hotter, so it
// lies below the line, by less than 7 % for the usual fixed share (recomputed: 4.0 % at 24 °C with 4 °C inside).
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

// A technician timed a two-zone chest of 47 L (read, weak): 19.1 Ah a day at 20 °C with 4.5 °C inside, 20.45 with 3.5 °C, 21.8
// with 2.5 °C, and about 30 Ah at about 30 °C. One point, and the usual share for the rest.
TEST_CASE("fridge: a chest timed at 20 degC takes about 30 Ah at 30 degC, and more when it is set colder") {
    const auto from = [](double inside, double a_day, Temperature around, double held) {
        const Fridge fridge = fit_fridge({20_degC, celsius(inside), mean_power(ampere_hours(a_day), nominal_voltage)},
                                         row().fixed_share, row());
        return in_ampere_hours(fridge_power(fridge, around, celsius(held), row()) * hours(24) / nominal_voltage);
    };
    CHECK(from(4.5, 19.1, 30_degC, 4.5) == near(30.0, 1.0));
    CHECK(from(3.5, 20.45, 30_degC, 3.5) == near(30.0, 2.0));
    CHECK(from(4.5, 19.1, 20_degC, 2.5) == near(21.8, 0.8));
}

// A vendor of 12 V boxes (weak): 300 to 400 Wh a day at 21 °C, 400 to 600 at 29 °C, 600 to 900 at 38 °C: between the middles 1.43
// and 1.5 times.
TEST_CASE("fridge: from 21 to 29 and to 38 degC within a tenth of a vendor's ranges") {
    const auto day = [](Temperature around) {
        const Fridge fridge = fit_fridge({21_degC, 5_degC, mean_power(350_Wh)}, row().fixed_share, row());
        return in_watt_hours(fridge_power(fridge, around, 5_degC, row()) * hours(24));
    };
    CHECK(day(29_degC) / 500.0 == near(1.0, 0.1));
    CHECK(day(38_degC) / 750.0 == near(1.0, 0.1));
}

// Int. J. Energy Engineering (abstract read): a household refrigerator took 15 to 53 % more at 33 than at 20 °C. The upper end of
// the shares that may be drawn reaches into that.
TEST_CASE("fridge: the highest fixed share is within a household refrigerator's 15 to 53 percent from 20 to 33 degC") {
    const Fridge fridge = fit_fridge({20_degC, 4_degC, 12_W}, row().fixed_share_high, row());
    const Ratio more = fridge_power(fridge, 33_degC, 4_degC, row()) / fridge_power(fridge, 20_degC, 4_degC, row());
    CHECK(in_ratio(more) > 1.15);
    CHECK(in_ratio(more) < 1.53);
}

// EU 2019/2016, Annex IV: compartments add up by volume, each by its r_c = (24 °C − T_c)/20 (2.10 at −18 °C and 1.00 at 4 °C, read):
// a third of freezer beside two thirds of fresh food lets in 1.367 times the heat.
TEST_CASE("fridge: the heat of two zones adds up by volume, EU 2019/2016, Annex IV") {
    const FridgeDuty both =
        fridge_duty(only_walls(1.0), 60_W, 24_degC, two_zones(4_degC, celsius(-18), 1.0 / 3.0), row());
    const FridgeDuty one = fridge_duty(only_walls(1.0), 60_W, 24_degC, 4_degC, row());
    CHECK(in_ratio(both.power / both.ideal_work / (one.power / one.ideal_work)) == near(1.367, 0.0005));
    CHECK(both.ideal_work == fridge_duty(only_walls(1.0), 60_W, 24_degC, celsius(-18), row()).ideal_work);
}

// An owner's plug meter on one cabinet in a garage at 26.7 °C (read, weak): 0.536 kWh a day as a fridge, 1.130 as a freezer.
TEST_CASE("fridge: one cabinet as a fridge and as a freezer, each from the other within a quarter") {
    const auto from = [](double rated_inside, double kilowatt_hours, double inside) {
        const Fridge fridge =
            fit_fridge({celsius(26.7), celsius(rated_inside), mean_power(watt_hours(1000.0 * kilowatt_hours))},
                       row().fixed_share, row());
        return in_watt_hours(fridge_power(fridge, celsius(26.7), celsius(inside), row()) * hours(24)) / 1000.0;
    };
    CHECK(from(-18, 1.130, 4) / 0.536 == near(1.0, 0.25));
    CHECK(from(4, 0.536, -18) / 1.130 == near(1.0, 0.25));
}

// Recomputed from textbook constants: all air of a 40 L chest changed from 30 °C and 50 % to 4 °C brings 0.6 Wh, 0.4 Wh from the
// battery at a coefficient of performance of 1.5 (ours there: 1.64).
TEST_CASE("fridge: one opening of a chest of 40 L, recomputed") {
    const LidOpenings once = lid_openings(1, 40_L, 30_degC, 4_degC, row());
    CHECK(in_watt_hours(once.heat) == near(0.6, 0.05));
    CHECK(in_watt_hours(once.electric) == near(0.4, 0.05));
}

// Int. J. Energy Engineering (abstract read): a household refrigerator opened 2 to 8 times an hour took 7 to 30 % more. A chest of
// 47 L loses less through its lid: between half of that and all.
TEST_CASE("fridge: opened 2 to 8 times an hour, of what doors cost a household refrigerator half or more") {
    const Power shut = mean_power(19.1_Ah, nominal_voltage);
    const auto more = [&](int an_hour) {
        return in_ratio(lid_openings(24 * an_hour, 47_L, 20_degC, celsius(4.5), row()).electric / hours(24) / shut);
    };
    CHECK(more(2) > 0.5 * 0.07);
    CHECK(more(2) < 0.07);
    CHECK(more(8) > 0.5 * 0.30);
    CHECK(more(8) < 0.30);
}

// EU 2019/2016, Annex IV (read): a fresh food compartment is kept between 0 and 8 °C. Recomputed: 12 kg of water take 14.0 Wh for
// each kelvin, 9.3 Wh at a coefficient of performance of 1.5 (ours at 5 °C inside and 35 around: 1.54).
TEST_CASE("fridge: a usual filling warms by a kelvin for 9.3 Wh owed, and fresh food may reach 8 degC") {
    CHECK(in_celsius(warmed_by(9.3_Wh, 50_L, 5_degC, 35_degC, row())) == near(6.0, 0.1));
    CHECK(warmed_by(900_Wh, 50_L, 5_degC, 35_degC, row()) == 35_degC);
    CHECK(may_become(5_degC, row()) == 8_degC);
    CHECK(may_become(2_degC, row()) == 8_degC);
    CHECK(may_become(celsius(-18), row()) == near(celsius(-15), kelvins(1e-9)));
}

// Recomputed: 12 kg of drinks from 25 to 4 °C are 293 Wh of heat, 16.28 Ah at 12 V and a coefficient of performance of 1.5.
TEST_CASE("fridge: a usual filling of 50 L put in warm, recomputed") {
    const Restocking filled = warm_start(50_L, 4_degC, 30_degC, row());
    CHECK(in_watt_hours(filled.heat) == near(293.02, 0.5));
    CHECK(in_ratio(filled.heat / filled.electric) == near(1.5, 0.2));
}

}  // namespace voltwright

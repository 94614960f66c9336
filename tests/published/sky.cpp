// What clouds leave: years and months of sun, and dull days, against figures that the tables of this program were not made from
// unless the case says so.

#include "testing.hpp"

#include "voltwright/energy/sky.hpp"
#include "voltwright/energy/sun.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/literals.hpp"

#include <algorithm>

namespace voltwright {

using namespace literals;

namespace {

const Tables& tables = built_in_tables();

constexpr int days_of[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/// Of a panel of 1 kW with the usual sky of that latitude, kWh a day of each month; or, without a panel, kWh/m² on the
/// horizontal.
struct Months {
    double each[12];

    [[nodiscard]] double year() const {
        double sum = 0.0;
        for (int month = 0; month < 12; ++month) sum += each[month] * days_of[month];
        return sum;
    }
    [[nodiscard]] double worst() const { return *std::min_element(each, each + 12); }
    [[nodiscard]] double best() const { return *std::max_element(each, each + 12); }
};

Months horizontal(double latitude) {
    Months months{};
    int day = 0;
    for (int month = 0; month < 12; ++month)
        for (int i = 0; i < days_of[month]; ++i) {
            const DaySun sun = day_sun(degrees(latitude), ++day);
            const Ratio index = find_clearness_index(tables, degrees(latitude), month + 1)->usual;
            months.each[month] +=
                in_ratio(index) * in_megajoules_per_square_metre(sun.extraterrestrial) / 3.6 / days_of[month];
        }
    return months;
}

Months panel_of_a_kilowatt(double latitude, double tilt, double around) {
    const Panel panel = panel_from(watts(1000), degrees(tilt), degrees(latitude < 0 ? 0 : 180), ratio(0.0),
                                   tables.panels.front(), *find_regulator(tables, "mppt"));
    Months months{};
    int day = 0;
    for (int month = 0; month < 12; ++month)
        for (int i = 0; i < days_of[month]; ++i) {
            const DaySun sun = day_sun(degrees(latitude), ++day);
            const Ratio clear = of_clear_sky(find_clearness_index(tables, degrees(latitude), month + 1)->usual);
            for (int hour = 0; hour < 24; ++hour)
                months.each[month] += in_watts(panel_power(panel, sun, hours(hour), hours(hour + 1), celsius(around),
                                                           clear, ClearnessOf::mean_day)
                                                   .power) /
                                      1000.0 / days_of[month];
        }
    return months;
}

}  // namespace

// kWh/m² a year on the horizontal. The first four: table 1 of a paper of 2023 on six places, read. The last two: a national
// energy agency, read; the table's stations near 60° N have another source.
TEST_CASE("sky: a year's sun on the horizontal, within a fifth of what is published for six places") {
    struct {
        double latitude, published;
    } constexpr places[] = {{50.7, 979}, {40.1, 1481}, {13.0, 1942}, {-22.9, 1691}, {60.2, 980}, {67.4, 790}};
    for (const auto& [latitude, published] : places) {
        CAPTURE(latitude);
        const double ratio = horizontal(latitude).year() / published;
        CAPTURE(ratio);
        CHECK(ratio > 0.80);
        CHECK(ratio < 1.25);
    }
}

// A modelled table of cities, read (weak): London, panels tilted for the year, 1.2 kWh a day of a kilowatt in the worst month,
// 2.8 over the year, 4.5 in the best.
TEST_CASE("sky: a tilted panel at 51.5 degrees north in its worst month, its best and over the year") {
    const Months london = panel_of_a_kilowatt(51.5, 38.0, 11.0);
    const double worst = london.worst() / 1.2, year = london.year() / 365.0 / 2.8, best = london.best() / 4.5;
    CAPTURE(worst);
    CAPTURE(year);
    CAPTURE(best);
    // Every sky is taken as equally bright: where the sun stands at 15° and shines through gaps, its part of the sky counts for
    // more. The safe side.
    CHECK(worst > 0.55);
    CHECK(worst < 1.25);
    CHECK(year > 0.80);
    CHECK(year < 1.25);
    CHECK(best > 0.80);
    CHECK(best < 1.25);
}

// A typical year at 36.1° N, 79.95° W (US government data, carried by an open library; sums of its hours): kWh/m² a day on the
// horizontal, of these from the sky, and outside the air. The relation was fitted to other stations.
TEST_CASE("sky: the share that comes from the sky in each month of a typical year") {
    constexpr double global[12] = {2.414, 3.063, 4.251, 5.410, 5.636, 6.251, 6.083, 5.615, 4.427, 3.589, 2.435, 2.243};
    constexpr double sky[12] = {1.126, 1.136, 1.790, 2.100, 2.668, 2.759, 2.720, 2.555, 2.001, 1.513, 1.072, 0.932};
    constexpr double outside[12] = {4.954,  6.369,  8.250, 9.995, 11.125, 11.571,
                                    11.293, 10.313, 8.804, 6.927, 5.313,  4.522};
    int day = 15;
    for (int month = 0; month < 12; day += days_of[month++]) {
        CAPTURE(month);
        const Ratio share = mean_diffuse_share(global[month] / outside[month], day_sun(degrees(36.1), day).sunset);
        CHECK(in_ratio(share) == near(sky[month] / global[month], 0.08));
    }
}

// Aguiar, Collares-Pereira and Conde 1988, recomputed from their matrices: the figures that the table prints.
TEST_CASE("sky: a dull day is the low tenth of its month's days") {
    CHECK(in_ratio(dull_day(ratio(0.429), tables).share.value) == near(0.43, 0.005));
    CHECK(in_ratio(dull_day(ratio(0.526), tables).dull) == near(0.526 * 0.57, 0.003));
    // Held beyond the first and the last row.
    CHECK(in_ratio(dull_day(ratio(0.10), tables).share.value) == near(0.30, 0.005));
    CHECK(in_ratio(dull_day(ratio(0.80), tables).share.value) == near(0.89, 0.005));
}

// Typical-year files of public repositories, worked out from their hours: the year's mean index, and of the worst three days
// in a row over their month's mean day the median month and the worst month. Two coasts of the far north, where no day is
// clear and few are much duller than the rest, are left out: there three dull days are darker than the year's worst.
TEST_CASE("sky: three dull days lie between an ordinary month's worst three and the year's, at 24 stations") {
    struct {
        double index, median, worst;
    } constexpr stations[] = {{.39, .56, .39}, {.43, .57, .27}, {.45, .53, .35}, {.41, .55, .28}, {.46, .36, .23},
                              {.50, .59, .37}, {.49, .65, .48}, {.50, .60, .39}, {.51, .65, .55}, {.64, .72, .40},
                              {.51, .63, .42}, {.58, .66, .35}, {.49, .56, .35}, {.59, .60, .39}, {.52, .58, .40},
                              {.45, .43, .17}, {.65, .68, .39}, {.66, .69, .28}, {.54, .56, .28}, {.47, .41, .23},
                              {.60, .75, .50}, {.54, .69, .43}, {.46, .75, .49}, {.59, .69, .48}};
    for (const auto& [index, median, worst] : stations) {
        CAPTURE(index);
        CAPTURE(median);
        const double share = in_ratio(dull_day(ratio(index), tables).share.value);
        CHECK(share <= 1.35 * median);
        CHECK(share >= 0.85 * worst);
    }
}

TEST_CASE("sky: a clearer month never has a duller day") {
    Ratio before{};
    for (int index = 1; index <= 82; ++index) {
        const Ratio dull = dull_day(percent(index), tables).dull;
        CHECK(dull > before);
        CHECK(dull < percent(index));
        before = dull;
    }
}

}  // namespace voltwright

#include "testing.hpp"

#include "voltwright/energy/sun.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/literals.hpp"

#include <cmath>

namespace voltwright {

using namespace literals;

namespace {

const Tables& tables = built_in_tables();

Panel panel(Angle tilt, Angle azimuth, std::string_view regulator = "mppt") {
    return panel_from(100_W, tilt, azimuth, ratio(0.0), tables.panels.front(), *find_regulator(tables, regulator));
}

PanelPower at_noon(const Panel& panel, Temperature around) {
    return panel_power(panel, day_sun(degrees(-33.0), 355), 11.5_h, 12.5_h, around, ratio(1.0));
}

}  // namespace

TEST_CASE("in the polar night the sun does not rise, in the polar day it does not set") {
    const DaySun night = day_sun(degrees(80.0), 355), day = day_sun(degrees(80.0), 172);
    CHECK(night.daylight == near(hours(0.0), seconds(1.0)));
    CHECK(night.extraterrestrial == Irradiation{});
    CHECK(extraterrestrial(night, 11_h, 13_h) == Irradiance{});
    CHECK(extraterrestrial(night, 12_h, 12_h) == Irradiance{});
    CHECK(sun_share(night, 11_h, 13_h) == ratio(0.0));
    CHECK(sunrise(day) == near(hours(0.0), seconds(1.0)));
    CHECK(sunset_at(day) == near(hours(24.0), seconds(1.0)));
    CHECK(extraterrestrial(day, 0_h, 1_h) > Irradiance{});
}

TEST_CASE("at the poles every figure is a number") {
    for (const double latitude : {-90.0, 90.0})
        for (int day = 1; day <= 366; ++day) {
            CAPTURE(latitude);
            CAPTURE(day);
            const DaySun sun = day_sun(degrees(latitude), day);
            CHECK(std::isfinite(in_hours(sun.daylight)));
            CHECK(sun.extraterrestrial >= Irradiation{});
            CHECK(std::isfinite(in_ratio(sun_share(sun, 9_h, 10_h))));
        }
}

TEST_CASE("the sun stands in the north at noon in the south, in the east in the morning, in the west in the evening") {
    const DaySun sun = day_sun(degrees(-33.0), 172);
    const Angle noon = sun_position(sun, 12_h).azimuth;
    CHECK((noon == near(degrees(0.0), degrees(0.001)) || noon == near(degrees(360.0), degrees(0.001))));
    CHECK(sun_position(sun, 8_h).azimuth == near(degrees(55.0), degrees(20.0)));
    CHECK(sun_position(sun, 16_h).azimuth == near(degrees(305.0), degrees(20.0)));
    CHECK(sun_position(day_sun(degrees(50.0), 172), 12_h).azimuth == near(degrees(180.0), degrees(0.001)));
}

TEST_CASE("what is up for a part of the time counts for that part") {
    const DaySun sun = day_sun(degrees(40.0), 80);
    const Duration rise = sunrise(sun);
    CHECK(in_watts_per_square_metre(2.0 * extraterrestrial(sun, rise - 1_h, rise + 1_h)) ==
          near(in_watts_per_square_metre(extraterrestrial(sun, rise, rise + 1_h)), 1e-9));
    CHECK(extraterrestrial(sun, rise - 2_h, rise - 1_h) == Irradiance{});
}

TEST_CASE("full sun is the day's own noon") {
    const DaySun sun = day_sun(degrees(40.0), 80);
    CHECK(in_ratio(sun_share(sun, 12_h, 12_h)) == near(1.0, 1e-12));
    CHECK(in_ratio(sun_share(sun, 9_h, 9_h)) < in_ratio(sun_share(sun, 10_h, 10_h)));
    CHECK(sun_share(sun, 0_h, 1_h) == ratio(0.0));
}

TEST_CASE("a flat panel gets what the horizontal gets, wherever it is said to look") {
    const PanelPower north = at_noon(panel(degrees(0.0), degrees(0.0)), 25_degC);
    const PanelPower west = at_noon(panel(degrees(0.0), degrees(270.0)), 25_degC);
    CHECK(in_watts_per_square_metre(north.plane) == near(in_watts_per_square_metre(north.horizontal), 1e-9));
    CHECK(in_watts(north.power) == near(in_watts(west.power), 1e-9));
}

TEST_CASE("a panel tilted to the east gives more in the morning than in the evening") {
    const DaySun sun = day_sun(degrees(-33.0), 80);
    const Panel east = panel(degrees(30.0), degrees(90.0));
    CHECK(panel_power(east, sun, 8_h, 9_h, 20_degC, ratio(1.0)).power >
          1.5 * panel_power(east, sun, 15_h, 16_h, 20_degC, ratio(1.0)).power);
}

TEST_CASE(
    "heat takes power from a panel with mppt, pwm leaves much of a cool panel's power and of a hot one's little") {
    const Panel mppt = panel(degrees(0.0), degrees(0.0)), pwm = panel(degrees(0.0), degrees(0.0), "pwm");
    CHECK(at_noon(mppt, 40_degC).power < at_noon(mppt, 10_degC).power);
    CHECK(in_watts(at_noon(pwm, 20_degC).power) == near(in_watts(at_noon(pwm, 10_degC).power), 1e-9));
    CHECK(at_noon(pwm, 60_degC).power < at_noon(pwm, 20_degC).power);
    CHECK(at_noon(pwm, 0_degC).power < 0.85 * at_noon(mppt, 0_degC).power);
    // Beyond that only the regulators' own losses differ.
    CHECK(at_noon(pwm, 60_degC).power > at_noon(mppt, 60_degC).power);
    CHECK(at_noon(pwm, 60_degC).power < 1.05 * at_noon(mppt, 60_degC).power);
    CHECK_FALSE(find_regulator(tables, "linear"));
}

TEST_CASE("shade takes its share of the sun, and cools the cells") {
    Panel shaded = panel(degrees(0.0), degrees(0.0));
    const PanelPower clear = at_noon(shaded, 25_degC);
    shaded.shade = percent(40);
    const PanelPower half = at_noon(shaded, 25_degC);
    CHECK(in_watts_per_square_metre(half.plane) == near(0.6 * in_watts_per_square_metre(clear.plane), 1e-9));
    CHECK(half.cell < clear.cell);
    CHECK(half.power > 0.6 * clear.power);
}

TEST_CASE("by night, and under a sky that lets nothing through, a panel gives nothing and has the air's temperature") {
    const DaySun sun = day_sun(degrees(-33.0), 355);
    const PanelPower night = panel_power(panel(degrees(30.0), degrees(0.0)), sun, 1_h, 2_h, 12_degC, ratio(1.0));
    const PanelPower dark = panel_power(panel(degrees(30.0), degrees(0.0)), sun, 11_h, 12_h, 12_degC, ratio(0.0));
    CHECK(night.power == Power{});
    CHECK(night.cell == near(celsius(12.0), kelvins(1e-9)));
    CHECK(dark.power == Power{});
    CHECK(dark.extraterrestrial > Irradiance{});
}

}  // namespace voltwright

// Laws of the sun and the panel, over latitudes, days, hours and tilts.

#include "testing.hpp"

#include "voltwright/energy/sun.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/literals.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace voltwright;
using namespace voltwright::literals;

namespace {

constexpr double latitudes[] = {-90, -75, -50, -34, -10, 0, 10, 34, 50, 75, 90};
constexpr int days[] = {1, 80, 105, 172, 220, 266, 290, 355, 366};

Panel panel(double tilt, double azimuth, double shade = 0.0) {
    return panel_from(100_W, degrees(tilt), degrees(azimuth), ratio(shade), built_in_tables().panels.front(),
                      *find_regulator(built_in_tables(), "mppt"));
}

template <class Check>
void at_all_places(Check check) {
    for (const double latitude : latitudes)
        for (const int day : days) {
            CAPTURE(latitude);
            CAPTURE(day);
            check(day_sun(degrees(latitude), day));
        }
}

double watts_on(const Irradiance& irradiance) { return in_watts_per_square_metre(irradiance); }

}  // namespace

TEST_CASE("the sun shines only while it stands above the horizon") {
    at_all_places([](const DaySun& sun) {
        for (int minute = 0; minute <= 24 * 60; minute += 10) {
            CAPTURE(minute);
            const Duration at = minutes(minute);
            const double height = 90.0 - in_degrees(sun_position(sun, at).zenith);
            const Irradiance shine = extraterrestrial(sun, at, at);
            if (height < -1e-6) CHECK(shine == Irradiance{});
            if (height > 1e-6) CHECK(shine > Irradiance{});
            if (height > 1e-6) CHECK(at >= sunrise(sun) - seconds(1e-3));
            if (height > 1e-6) CHECK(at <= sunset_at(sun) + seconds(1e-3));
        }
    });
}

TEST_CASE("the hours of a day add up to the day, however it is cut") {
    at_all_places([](const DaySun& sun) {
        for (const double step : {0.25, 1.0, 1.7, 24.0}) {
            CAPTURE(step);
            Irradiation sum{};
            for (double hour = 0.0; hour < 24.0; hour += step) {
                const Duration from = hours(hour), to = hours(std::min(hour + step, 24.0));
                sum += extraterrestrial(sun, from, to) * (to - from);
            }
            CHECK(in_megajoules_per_square_metre(sum) ==
                  near(in_megajoules_per_square_metre(sun.extraterrestrial), 1e-9));
        }
    });
}

TEST_CASE("a panel's power is never negative, never a third above its rating, and never without sun") {
    at_all_places([](const DaySun& sun) {
        for (const double tilt : {0.0, 20.0, 60.0, 90.0})
            for (const double azimuth : {-180.0, -90.0, 0.0, 30.0, 180.0, 360.0})
                for (const double around : {-40.0, 20.0, 60.0})
                    for (double hour = 0.0; hour < 24.0; hour += 0.5) {
                        CAPTURE(tilt);
                        CAPTURE(azimuth);
                        CAPTURE(hour);
                        const PanelPower made = panel_power(panel(tilt, azimuth), sun, hours(hour), hours(hour + 0.5),
                                                            celsius(around), ratio(1.0));
                        CHECK(made.power >= Power{});
                        CHECK(made.power <= 1.3 * 100_W);
                        if (!(made.extraterrestrial > Irradiance{})) CHECK(made.power == Power{});
                        CHECK(std::isfinite(in_celsius(made.cell)));
                    }
    });
}

TEST_CASE("a morning mirrors the afternoon, and the south the north") {
    at_all_places([](const DaySun& sun) {
        DaySun mirrored = sun;  // the same sun seen from the other side
        mirrored.latitude = -sun.latitude;
        mirrored.declination = -sun.declination;
        for (const double tilt : {0.0, 35.0, 80.0})
            for (const double azimuth : {0.0, 40.0, 150.0})
                for (double hour = 0.0; hour < 24.0; hour += 0.75) {
                    CAPTURE(tilt);
                    CAPTURE(azimuth);
                    CAPTURE(hour);
                    const Duration from = hours(hour), to = hours(hour + 0.75);
                    const auto given = [&](const Panel& each, const DaySun& by, Duration begin, Duration end) {
                        return in_watts(panel_power(each, by, begin, end, 20_degC, ratio(0.8)).power);
                    };
                    const double here = given(panel(tilt, azimuth), sun, from, to);
                    CHECK(here == near(given(panel(tilt, -azimuth), sun, 24_h - to, 24_h - from), 1e-6));
                    CHECK(here == near(given(panel(tilt, 180.0 - azimuth), mirrored, from, to), 1e-6));
                }
    });
}

TEST_CASE("a tilted panel's hour is the mean of its minutes, but for the hour in which the sun comes round its edge") {
    // There the mean direction gives a little less: 35 W/m2 of a kilowatt at most, the half of an hour
    // on one side of the edge.
    at_all_places([](const DaySun& sun) {
        for (const double tilt : {20.0, 60.0, 90.0})
            for (const double azimuth : {0.0, 100.0, 220.0})
                for (int hour = 0; hour < 24; ++hour) {
                    CAPTURE(tilt);
                    CAPTURE(azimuth);
                    CAPTURE(hour);
                    const Panel leaning = panel(tilt, azimuth);
                    const auto plane = [&](Duration from, Duration to) {
                        return watts_on(panel_power(leaning, sun, from, to, 20_degC, ratio(1.0)).plane);
                    };
                    double minutely = 0.0;
                    for (int minute = 0; minute < 60; ++minute)
                        minutely += plane(hours(hour) + minutes(minute), hours(hour) + minutes(minute + 1)) / 60.0;
                    const double hourly = plane(hours(hour), hours(hour + 1));
                    CHECK(hourly <= minutely + 1e-6);
                    CHECK(hourly >= minutely - 35.0);
                }
    });
}

TEST_CASE("less clear never gives more on the horizontal, and shade never more power") {
    at_all_places([](const DaySun& sun) {
        for (int step = 0; step < 20; ++step) {
            CAPTURE(step);
            const double less = step / 20.0, more = (step + 1) / 20.0;
            const auto made = [&](double clearness, double shade) {
                return panel_power(panel(0.0, 0.0, shade), sun, 12_h, 13_h, 30_degC, ratio(clearness));
            };
            CHECK(made(less, 0.1).horizontal <= made(more, 0.1).horizontal);
            CHECK(made(less, 0.1).power <= made(more, 0.1).power + watts(1e-9));
            CHECK(made(0.8, more).power <= made(0.8, less).power);
        }
    });
}

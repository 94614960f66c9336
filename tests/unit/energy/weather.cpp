#include "testing.hpp"

#include "voltwright/energy/weather.hpp"
#include "voltwright/units/literals.hpp"

namespace voltwright {

using namespace literals;

namespace {

constexpr SurroundingsRow place{"a place", 2_K, 30_K, 10_K, false, {}, {}, {}};

}  // namespace

TEST_CASE("the air is at its low at sunrise and at its high in the early afternoon") {
    for (const auto& [sunrise, sunset] : {std::pair{6.0, 18.0}, {4.5, 19.5}, {8.0, 16.0}, {11.0, 13.0}, {0.0, 24.0}}) {
        CAPTURE(sunrise);
        const DayAir day = day_air(14_degC, 31_degC, hours(sunrise), hours(sunset));
        CHECK(air_temperature(day, day, day.sunrise) == 14_degC);
        CHECK(air_temperature(day, day, 13.86_h) == near(31_degC, kelvins(1e-9)));
        CHECK(13.86_h <= day.sunset);
    }
}

TEST_CASE("without a latitude the sun is up from six to six") {
    const DayAir day = day_air(14_degC, 31_degC);
    CHECK(day.sunrise == 6_h);
    CHECK(day.sunset == 18_h);
}

TEST_CASE("a night that never ends and a day that never ends keep their low and high") {
    const DayAir winter = day_air(celsius(-22), celsius(-11), 12_h, 12_h);
    CHECK(winter.sunset - winter.sunrise == near(4_h, seconds(1e-6)));
    const DayAir summer = day_air(6_degC, 15_degC, 0_h, 24_h);
    CHECK(summer.sunset - summer.sunrise == near(20_h, seconds(1e-6)));
    CHECK(air_temperature(winter, winter, 10_h) == near(celsius(-22), kelvins(1e-9)));
    CHECK(air_temperature(summer, summer, 2_h) == near(6_degC, kelvins(1e-9)));
}

TEST_CASE("the night falls towards the coming low, not the last one") {
    const DayAir mild = day_air(14_degC, 31_degC), cold = day_air(4_degC, 20_degC);
    CHECK(air_temperature(mild, cold, 24_h) < air_temperature(mild, mild, 24_h));
    CHECK(air_temperature(mild, cold, 30_h) == near(4_degC, kelvins(1e-9)));
    CHECK(air_temperature(mild, mild, 30_h) == near(14_degC, kelvins(1e-9)));
    // A low that is warmer than the evening: the night rises to it.
    const DayAir warm = day_air(29_degC, 38_degC);
    CHECK(air_temperature(mild, warm, 30_h) == near(29_degC, kelvins(1e-9)));
    CHECK(air_temperature(mild, warm, 20_h) < 29_degC);
}

TEST_CASE("before sunrise the day before decides") {
    const DayAir mild = day_air(14_degC, 31_degC), hot = day_air(14_degC, 41_degC);
    CHECK(air_temperature(hot, mild, mild, 2_h) == near(air_temperature(hot, mild, 26_h), kelvins(1e-9)));
    CHECK(air_temperature(hot, mild, mild, 2_h) > air_temperature(mild, mild, mild, 2_h));
    CHECK(air_temperature(mild, mild, 2_h) == near(air_temperature(mild, mild, mild, 2_h), kelvins(1e-9)));
}

TEST_CASE("a day of one temperature keeps it") {
    const DayAir flat = day_air(20_degC, 20_degC);
    for (int hour = 0; hour <= 30; ++hour) CHECK(air_temperature(flat, flat, hours(hour)) == 20_degC);
}

TEST_CASE("the sun heats what stands, the engine what drives, and some of it is always there") {
    CHECK(around_at(place, 31_degC, false, ratio(0.0)) == near(33_degC, kelvins(1e-9)));
    CHECK(around_at(place, 31_degC, false, ratio(0.5)) == near(38_degC, kelvins(1e-9)));
    CHECK(around_at(place, 31_degC, true, ratio(1.0)) == near(63_degC, kelvins(1e-9)));
}

TEST_CASE("a battery stays as it is for no time, and is as its surroundings after a long one") {
    CHECK(lagged(10_degC, 30_degC, 0_h, 4_h) == 10_degC);
    CHECK(lagged(10_degC, 30_degC, 1000_h, 4_h) == near(30_degC, kelvins(1e-9)));
    CHECK(lagged(30_degC, 10_degC, 1000_h, 4_h) == near(10_degC, kelvins(1e-9)));
}

TEST_CASE("the sun's share is nothing by night, and by its time in the day else") {
    CHECK(usual_sun_share(18_h, 24_h) == near(ratio(0.0), ratio(1e-12)));
    CHECK(usual_sun_share(0_h, 6_h) == near(ratio(0.0), ratio(1e-12)));
    CHECK(usual_sun_share(22_h, 28_h) == near(ratio(0.0), ratio(1e-12)));
    CHECK(usual_sun_share(3_h, 3_h) == near(ratio(0.0), ratio(1e-12)));
    CHECK(usual_sun_share(36_h, 36_h) == near(ratio(1.0), ratio(1e-12)));
    // Over midnight, and so into the next morning.
    CHECK(usual_sun_share(18_h, 36_h) == near(usual_sun_share(6_h, 12_h) / 3.0, ratio(1e-12)));
    CHECK(usual_sun_share(11_h, 13_h) > percent(95));
}

}  // namespace voltwright

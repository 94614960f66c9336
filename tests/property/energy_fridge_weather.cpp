// Laws of the fridge and of the weather, over grids and over values drawn with a fixed seed.

#include "testing.hpp"

#include "voltwright/energy/fridge.hpp"
#include "voltwright/energy/weather.hpp"
#include "voltwright/tables/tables.hpp"

#include <algorithm>
#include <random>
#include <vector>

using namespace voltwright;

namespace {

const FridgeRow& row() { return built_in_tables().fridges.front(); }

/// A draw between two ends.
class Drawn {
public:
    double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }

private:
    std::mt19937_64 random_{20261125};
};

/// Fridges of every fit, sound ratings and nonsense.
std::vector<Fridge> any_fridges() {
    Drawn draw;
    std::vector<Fridge> fridges;
    const auto point = [&] {
        return RatedPoint{celsius(draw.between(-5, 45)), celsius(draw.between(-22, 12)), watts(draw.between(0, 60))};
    };
    for (int i = 0; i < 200; ++i) {
        fridges.push_back(fit_fridge(point(), ratio(draw.between(0, 0.9)), row()));
        fridges.push_back(fit_fridge(point(), point(), row()));
        fridges.push_back(fridge_by_volume(litres(draw.between(5, 200)), row()));
    }
    return fridges;
}

struct ThreeDays {
    DayAir yesterday, today, tomorrow;
};

std::vector<ThreeDays> any_days() {
    Drawn draw;
    const auto day = [&] {
        const double low = draw.between(-30, 30), half_day = draw.between(0, 12);
        return day_air(celsius(low), celsius(low + draw.between(0, 25)), hours(12 - half_day), hours(12 + half_day));
    };
    std::vector<ThreeDays> days;
    for (int i = 0; i < 100; ++i) days.push_back({day(), day(), day()});
    return days;
}

}  // namespace

TEST_CASE("a fridge never takes less in hotter surroundings, nor more for a warmer inside, nor less than nothing") {
    for (const Fridge& fridge : any_fridges()) {
        CAPTURE(in_watts(fridge.fixed));
        CAPTURE(in_watts_per_kelvin(fridge.wall));
        REQUIRE(fridge.fixed >= Power{});
        REQUIRE(fridge.wall >= ThermalConductance{});
        for (const double inside : {-22.0, -5.0, 4.0, 12.0}) {
            Power last{};
            for (double around = -30; around <= 60; around += 1.5) {
                const Power power = fridge_power(fridge, celsius(around), celsius(inside), row());
                REQUIRE(power >= last);
                REQUIRE(power >= fridge.fixed);
                REQUIRE(power >= fridge_power(fridge, celsius(around), celsius(inside + 1), row()));
                last = power;
            }
        }
    }
}

TEST_CASE("a fridge's mean power is its draw for the share of the time that it runs") {
    Drawn draw;
    for (const Fridge& fridge : any_fridges()) {
        const Power running = watts(draw.between(5, 100));
        const FridgeDuty duty = fridge_duty(fridge, running, celsius(draw.between(-20, 55)), celsius(4), row());
        REQUIRE(duty.draw * duty.duty == near(duty.power, watts(1e-9)));
        REQUIRE(duty.holds == (duty.duty <= ratio(1.0)));
    }
}

TEST_CASE("no fit lies further from two points than the best fridge without a fixed part") {
    Drawn draw;
    for (int i = 0; i < 500; ++i) {
        const RatedPoint cool{celsius(draw.between(10, 24)), celsius(5), watts(draw.between(2, 30))};
        const RatedPoint hot{celsius(draw.between(25, 45)), celsius(5), watts(draw.between(2, 60))};
        const auto miss = [&](const Fridge& fridge) {
            double sum = 0;
            for (const RatedPoint& point : {cool, hot}) {
                const double off = in_watts(fridge_power(fridge, point.around, point.inside, row()) - point.mean);
                sum += off * off;
            }
            return sum;
        };
        const Fridge fit = fit_fridge(cool, hot, row());
        if (fit.fit == FridgeFit::contradicting) continue;
        for (const double wall : {0.5, 0.9, 0.99, 1.01, 1.1, 2.0})
            for (const double fixed : {0.0, 0.5, 5.0}) {
                const Fridge other{fit.fixed + watts(fixed), fit.wall * wall, fit.fit, false};
                REQUIRE(miss(fit) <= miss(other) + 1e-9);
            }
    }
}

TEST_CASE("a colder second zone, more openings and a larger volume never take less") {
    Drawn draw;
    for (int i = 0; i < 300; ++i) {
        const Temperature inside = celsius(draw.between(0, 12)), around = celsius(draw.between(-10, 60));
        const Fridge fridge{watts(draw.between(0, 10)), watts_per_kelvin(draw.between(0.1, 5)), FridgeFit::two_points,
                            false};
        const Ratio share = ratio(draw.between(0, 1));
        Power last = fridge_power(fridge, around, inside, row());
        for (double colder = 0; colder <= 30; colder += 3) {
            const Power now = fridge_power(fridge, around, two_zones(inside, inside - kelvins(colder), share), row());
            REQUIRE(now >= last - watts(1e-9));
            last = now;
        }
        Energy lid{};
        for (int times = 0; times <= 200; times += 20) {
            const LidOpenings now = lid_openings(times, litres(20.0 + times), around, inside, row());
            REQUIRE(now.electric >= lid);
            lid = now.electric;
        }
    }
}

TEST_CASE("what is put in costs in proportion to its mass, and more the warmer it is") {
    Drawn draw;
    for (int i = 0; i < 300; ++i) {
        const Temperature inside = celsius(draw.between(-22, 12)), around = celsius(draw.between(-10, 50));
        Energy last{};
        for (double from = -30; from <= 60; from += 2.5) {
            const Restocking one = restocking(kilograms(1), celsius(from), inside, around, row());
            const Restocking seven = restocking(kilograms(7), celsius(from), inside, around, row());
            REQUIRE(one.electric >= last);
            REQUIRE(seven.electric == near(7.0 * one.electric, joules(1e-6)));
            last = one.electric;
        }
    }
}

TEST_CASE("the air never leaves the lows and highs of the days around it") {
    for (const auto& [yesterday, today, tomorrow] : any_days()) {
        const Temperature low = std::min({yesterday.low, today.low, tomorrow.low});
        const Temperature high = std::max({yesterday.high, today.high, tomorrow.high});
        for (int minute = 0; minute <= 24 * 60; minute += 7) {
            const Temperature air = air_temperature(yesterday, today, tomorrow, minutes(minute));
            REQUIRE(air >= low - kelvins(1e-9));
            REQUIRE(air <= high + kelvins(1e-9));
            const Temperature same = air_temperature(today, today, minutes(minute));
            REQUIRE(same >= today.low - kelvins(1e-9));
            REQUIRE(same <= today.high + kelvins(1e-9));
        }
    }
}

TEST_CASE("the air has no break within a day, at midnight, or from one day to the next") {
    // The steepest there can be: 85 K from a hot evening to a cold morning in a night of 4 h, which begins with a fall of
    // 2.20/(1 − e^−2.20) = 2.5 times that in a night: 53 K an hour, 0.015 K a second.
    const TemperatureRise most = kelvins(0.02);
    for (const auto& [yesterday, today, tomorrow] : any_days()) {
        Temperature last = air_temperature(yesterday, today, tomorrow, Duration{});
        for (int second = 1; second <= 24 * 3600; second += 1) {
            const Temperature air = air_temperature(yesterday, today, tomorrow, seconds(second));
            const TemperatureRise step = air > last ? air - last : last - air;
            if (step > most) FAIL("a step of ", in_kelvins(step), " K at ", second, " s");
            last = air;
        }
        REQUIRE(air_temperature(today, tomorrow, yesterday, Duration{}) == near(last, kelvins(1e-9)));
        REQUIRE(air_temperature(today, today, Duration{}) ==
                near(air_temperature(today, today, hours(24)), kelvins(1e-9)));
    }
}

TEST_CASE("a battery never passes its surroundings, and two steps are one") {
    Drawn draw;
    for (int i = 0; i < 2000; ++i) {
        const Temperature body = celsius(draw.between(-30, 60)), around = celsius(draw.between(-30, 60));
        const Duration dt = hours(draw.between(0, 50)), lag = hours(draw.between(0.1, 20));
        const Temperature then = lagged(body, around, dt, lag);
        REQUIRE(then >= std::min(body, around) - kelvins(1e-9));
        REQUIRE(then <= std::max(body, around) + kelvins(1e-9));
        const double part = draw.between(0, 1);
        REQUIRE(lagged(lagged(body, around, part * dt, lag), around, (1 - part) * dt, lag) ==
                near(then, kelvins(1e-9)));
    }
}

TEST_CASE("the sun's share is a share, and the parts of a day add up to the day") {
    Drawn draw;
    for (int i = 0; i < 2000; ++i) {
        const double from = draw.between(0, 24), to = from + draw.between(0.01, 48), at = draw.between(from, to);
        const Ratio share = usual_sun_share(hours(from), hours(to));
        REQUIRE(share >= ratio(0.0));
        REQUIRE(share <= ratio(1.0));
        REQUIRE(usual_sun_share(hours(at), hours(at)) >= ratio(0.0));
        REQUIRE(usual_sun_share(hours(at), hours(at)) <= ratio(1.0));
        const auto light = [](double begin, double end) {
            return begin < end ? (end - begin) * in_ratio(usual_sun_share(hours(begin), hours(end))) : 0.0;
        };
        REQUIRE(light(from, at) + light(at, to) == near(light(from, to), 1e-9));
    }
}

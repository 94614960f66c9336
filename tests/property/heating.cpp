// Laws of a conductor that heats: what is hotter or thinner never gets more time, and what never ends is the lasting rule.

#include "testing.hpp"

#include "voltwright/circuit/heating.hpp"
#include "voltwright/sizing/protection.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/literals.hpp"

#include <optional>
#include <vector>

using namespace voltwright;
using namespace voltwright::literals;

namespace {

const std::vector<Gauge> thin_to_thick = {awg(16), awg(14), awg(12), awg(10), awg(8),  awg(6), awg(4),
                                          awg(2),  awg(1),  awg(0),  awg(-1), awg(-2), awg(-3)};

std::optional<Ampacity> ampacity_at(Gauge size, Temperature around) {
    const ConductorRow row = conductor_of(built_in_tables(), size).value();
    return ampacity(built_in_tables(), "us-33-cfr-183", row, 105_degC, around, 1, nominal_voltage);
}

HeatedConductor cable(Gauge size, Temperature around) {
    return heated_conductor(conductor_of(built_in_tables(), size)->area, 105_degC, around, ampacity_at(size, around));
}

/// How long it may carry a current before it is as hot as this, to an hour.
Duration permitted(const HeatedConductor& conductor, Temperature start, Temperature limit, Current current) {
    Duration least{}, most = hours(1);
    for (int i = 0; i < 60; ++i) {
        const Duration middle = (least + most) / 2.0;
        (heated(conductor, start, current, middle) <= limit ? least : most) = middle;
    }
    return least;
}

}  // namespace

TEST_CASE("a hotter or a thinner cable never gets a longer permitted time") {
    for (const double amps : {60.0, 150.0, 400.0, 900.0})
        for (const Temperature& limit : {155_degC, 200_degC})
            for (const Temperature& around : {10_degC, 30_degC, 50_degC, 65_degC}) {
                CAPTURE(amps);
                CAPTURE(show(limit));
                CAPTURE(show(around));
                Duration thinner{};
                for (const Gauge size : thin_to_thick) {
                    CAPTURE(show(size));
                    const HeatedConductor one = cable(size, around);
                    const Duration time = permitted(one, 70_degC, limit, amperes(amps));
                    CHECK(time >= thinner * (1.0 - 1e-9));
                    CHECK(permitted(one, 90_degC, limit, amperes(amps)) <= time * (1.0 + 1e-9));
                    CHECK(permitted(cable(size, around + 10_K), 70_degC, limit, amperes(amps)) <= time * (1.0 + 1e-9));
                    thinner = time;
                }
            }
}

TEST_CASE("heat given off never makes hotter, and a time in two parts is the time in one") {
    for (const Gauge size : thin_to_thick)
        for (const double amps : {20.0, 120.0, 700.0})
            for (const Duration& time : {1_s, 30_s, 600_s}) {
                CAPTURE(show(size));
                CAPTURE(amps);
                CAPTURE(show(time));
                const HeatedConductor one = cable(size, 50_degC);
                HeatedConductor none = one;
                none.ampacity = Current{};
                const Temperature start = 60_degC, whole = heated(one, start, amperes(amps), time);
                CHECK(whole <= heated(none, start, amperes(amps), time));
                const Temperature half = heated(one, start, amperes(amps), time / 2.0);
                CHECK(heated(one, half, amperes(amps), time / 2.0) == near(whole, 1e-6_K));
                const Temperature end = settled(one, amperes(amps));
                CHECK(whole <= std::max(start, end) + 1e-6_K);
            }
}

TEST_CASE("a current that never ends may be the ampacity, in any surroundings") {
    for (const Gauge size : thin_to_thick)
        for (const Temperature& around : {0_degC, 30_degC, 40_degC, 60_degC, 90_degC}) {
            CAPTURE(show(size));
            CAPTURE(show(around));
            const Current lasting = ampacity_at(size, around)->current;
            CHECK(settled(cable(size, around), lasting) == near(105_degC, 0.01_K));
            CHECK(settled(cable(size, around), 1.01 * lasting) > 105_degC);
        }
}

TEST_CASE("a duty of the whole time allows the lasting current; a shorter one, or a longer pause, never less") {
    for (const Duration& tau : {39_s, 120_s, 635_s})
        for (const Duration& cycle : {20_s, 600_s, 3600_s}) {
            CAPTURE(show(tau));
            CAPTURE(show(cycle));
            CHECK(short_time_factor(tau, cycle, cycle) == near(ratio(1), ratio(1e-12)));
            Ratio last = ratio(1e9);
            for (int share = 1; share <= 20; ++share) {
                const Duration on = cycle * (share / 20.0);
                const Ratio factor = short_time_factor(tau, on, cycle);
                CHECK(factor <= last);
                CHECK(factor >= ratio(1.0 - 1e-12));
                CHECK(short_time_factor(tau, on, 2.0 * cycle) >= factor);
                CHECK(short_time_factor(1.5 * tau, on, cycle) >= factor * (1.0 - 1e-12));
                last = factor;
            }
        }
}

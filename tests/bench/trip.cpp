/// How long a trip takes: ns a step and a trip; quantities against plain doubles; and the same battery and loads at
/// one-minute steps in numpy, where python3 with numpy is there.
///
///     bench_trip [--short]
///
/// Times are the least of many, because everything that disturbs a measurement makes it longer.

#include "voltwright/energy/wells.hpp"
#include "voltwright/files/document.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/trip/march.hpp"
#include "voltwright/vehicle/keys.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

namespace {

using namespace voltwright;
using Clock = std::chrono::steady_clock;

/// The least time of many runs, in seconds.
template <class Work>
double least(int rounds, Work&& work) {
    double best = 1e9;
    for (int i = 0; i < rounds; ++i) {
        const auto start = Clock::now();
        work();
        best = std::min(best, std::chrono::duration<double>(Clock::now() - start).count());
    }
    return best;
}

System fourteen_days() {
    auto read = read_document(VOLTWRIGHT_TOP_FOLDER "/examples/profiles/seed-collector.toml");
    if (!std::holds_alternative<Document>(read)) std::exit(1);
    Faults faults;
    Profile profile = read_profile(std::get<Document>(read).root, faults);
    profile.trip.days = 14;
    auto system = resolve(profile, built_in_tables());
    if (!std::holds_alternative<System>(system)) std::exit(1);
    return std::get<System>(system);
}

/// The step of two wells again, in plain doubles, to be timed against the one in quantities: the same sums in the same
/// order.
namespace plain {

struct Growth {
    double once, twice;
};
Growth growth(double rate, double t) {
    const double x = rate * t;
    if (std::abs(x) < 1e-2) {
        const double twice = 0.5 + x * (1.0 / 6.0 + x * (1.0 / 24.0 + x * (1.0 / 120.0 + x * (1.0 / 720.0))));
        return {t * (1.0 + x * twice), twice * t * t};
    }
    const double once = std::expm1(x) / x;
    return {t * once, (once - 1.0) / x * t * t};
}

struct Moved {
    double available, bound, level_time;
};
[[gnu::noinline]] Moved move(double y1, double y2, double c, double k, double whole, double low, double high,
                             double at_low, double at_high, double t) {
    const double room = c * whole, low_charge = low * room, high_charge = high * room;
    const double b = (at_high - at_low) / (high_charge - low_charge);
    const double inflow = at_low + b * (y1 - low_charge);
    const double down = k * (1.0 - c), up = k * c;
    const double trace = b - down - up, determinant = -up * b;
    const double root = std::sqrt(trace * trace - 4.0 * determinant);
    const double large = (trace < 0.0 ? trace - root : trace + root) / 2.0;
    const double small = determinant / large;
    const double sinking = down * y1 - up * y2, rising = inflow - sinking, apart = small - large;
    const double first = ((b - down - large) * rising + up * sinking) / apart;
    const double first_bound = (down * rising - (up + large) * sinking) / apart;
    const Growth slow = growth(small, t), fast = growth(large, t);
    const double then = y1 + first * slow.once + (rising - first) * fast.once;
    if (then < low_charge || then > high_charge) return {then, 0.0, 0.0};
    const double turn = -(first / (rising - first));
    double extra = 0.0;
    if (turn > 0.0 && small != large) {
        const double when = std::log(turn) / (large - small);
        if (when > 0.0 && when < t)
            extra = y1 + first * growth(small, when).once + (rising - first) * growth(large, when).once;
    }
    if (extra > high_charge) return {extra, 0.0, 0.0};
    return {then, y2 + first_bound * slow.once + (sinking - first_bound) * fast.once,
            (y1 * t + first * slow.twice + (rising - first) * fast.twice) / room};
}

}  // namespace plain

}  // namespace

int main(int count, char** words) {
    const bool brief = count > 1 && std::strcmp(words[1], "--short") == 0;
    const int rounds = brief ? 60 : 600;
    const System system = fourteen_days();
    const Plan plan = make_plan(system);
    const std::vector<LaidRun> runs = laid_runs(plan.runs);
    const Tables& tables = built_in_tables();

    Journey journey = make_journey(system, runs, tables);
    const double making = least(rounds, [&] { journey = make_journey(system, runs, tables); });
    Trip trip = march(journey);
    const double marching = least(rounds, [&] { trip = march(journey); });
    std::printf("a trip of 14 days: %zu intervals, worked out in %.3f ms, marched in %.3f ms (%.0f ns an interval)\n",
                journey.intervals.size(), making * 1e3, marching * 1e3,
                marching * 1e9 / static_cast<double>(journey.intervals.size()));

    // One step of the wells, in quantities and in doubles.
    const HouseBattery& battery = journey.battery;
    const Stretch stretch{Ratio{0.5}, Ratio{0.9}, amperes(-4.1), amperes(-3.9)};
    const Wells start = battery.at(Ratio{0.8});
    constexpr int steps = 4000;
    double sum = 0.0, plain_sum = 0.0;
    const double quantities = least(rounds, [&] {
        for (int i = 0; i < steps; ++i)
            sum +=
                move_wells(start, battery.kinetics, battery.whole, stretch, seconds(600.0 + i)).wells.available.value();
    });
    const double doubles = least(rounds, [&] {
        for (int i = 0; i < steps; ++i)
            plain_sum +=
                plain::move(start.available.value(), start.bound.value(), double(battery.kinetics.available),
                            battery.kinetics.rate.value(), battery.whole.value(), 0.5, 0.9, -4.1, -3.9, 600.0 + i)
                    .available;
    });
    std::printf("a step of the wells: %.0f ns in quantities, %.0f ns in plain doubles, ratio %.2f%s\n",
                quantities * 1e9 / steps, doubles * 1e9 / steps, quantities / doubles,
                std::abs(sum - plain_sum) < 1e-6 * std::abs(sum) ? "" : " (they differ)");

    const std::string script = "/usr/bin/python3 " VOLTWRIGHT_TOP_FOLDER "/tests/bench/minute_steps.py 2>/dev/null";
    double numpy = 0.0;
    if (FILE* pipe = popen(script.c_str(), "r")) {
        if (std::fscanf(pipe, "%lf", &numpy) != 1) numpy = 0.0;
        pclose(pipe);
    }
    if (numpy > 0.0)
        std::printf("the same battery and loads at one-minute steps in numpy: %.0f ms, ratio %.0f\n", numpy * 1e3,
                    numpy / marching);
    else
        std::printf("the same in numpy: not run, python3 has no numpy here\n");
    if (trip.days.size() != 14) return 1;
    // On a noisy machine a bound has to leave room; the figures above say how it stands.
    return marching < 1e-3 && quantities < 1.5 * doubles ? 0 : 1;
}

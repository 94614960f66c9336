/// How long a trip takes: ns a step and a trip; quantities against plain doubles; and the same battery and loads at
/// one-minute steps in numpy, where python3 with numpy is there.
///
///     bench_trip [--short]

#include "timing.hpp"

#include "bench/plain.hpp"

#include "voltwright/energy/kinetic_battery.hpp"
#include "voltwright/files/document.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/read_profile.hpp"
#include "voltwright/simulation/build_scenario.hpp"
#include "voltwright/simulation/simulate.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

namespace {

using namespace voltwright;
using bench::least;

System fourteen_days(const std::string& profile_name) {
    auto read = read_document(VOLTWRIGHT_TOP_FOLDER "/examples/profiles/" + profile_name + ".toml");
    if (!std::holds_alternative<Document>(read)) std::exit(1);
    Faults faults;
    Profile profile = read_profile(std::get<Document>(read).root, faults);
    profile.trip.days = 14;
    auto system = resolve(profile, built_in_tables());
    if (!std::holds_alternative<System>(system)) std::exit(1);
    return std::get<System>(system);
}

}  // namespace

int main(int count, char** words) {
    const bool brief = count > 1 && std::strcmp(words[1], "--short") == 0;
    const int rounds = brief ? 60 : 600;
    // The simplest profile, then the one with the most text.
    {
        const System simplest = fourteen_days("simplest");
        const Plan plan = make_plan(simplest);
        const Scenario scenario = trip_scenario(scenario_inputs(simplest, laid_runs(plan.runs), built_in_tables()));
        const double simulating = least(rounds, [&] { (void)simulate(scenario); });
        std::printf("a trip of 14 days, a fridge alone: %zu intervals, simulated in %.3f ms (%.0f ns an interval)\n",
                    scenario.intervals.size(), simulating * 1e3,
                    simulating * 1e9 / static_cast<double>(scenario.intervals.size()));
    }
    const System system = fourteen_days("seed-collector");
    const Plan plan = make_plan(system);
    const std::vector<LaidRun> runs = laid_runs(plan.runs);
    const Tables& tables = built_in_tables();

    Scenario scenario = trip_scenario(scenario_inputs(system, runs, tables));
    const double making = least(rounds, [&] { scenario = trip_scenario(scenario_inputs(system, runs, tables)); });
    TripResult trip = simulate(scenario);
    const double simulating = least(rounds, [&] { trip = simulate(scenario); });
    std::printf(
        "a trip of 14 days, three loads: %zu intervals, worked out in %.3f ms, simulated in %.3f ms (%.0f ns an "
        "interval)\n",
        scenario.intervals.size(), making * 1e3, simulating * 1e3,
        simulating * 1e9 / static_cast<double>(scenario.intervals.size()));

    // One step of the battery, in quantities and in doubles, in turn.
    const HouseBattery& battery = scenario.battery;
    const LinearSegment segment{Ratio{0.5}, Ratio{0.9}, amperes(-4.1), amperes(-3.9)};
    const KineticState start = battery.at(Ratio{0.8});
    const plain::KineticParameters kinetics{double(battery.kinetics.available), battery.kinetics.rate.value(), 1.0};
    const plain::KineticState plain_start{start.available.value(), start.bound.value()};
    const plain::LinearSegment plain_segment{0.5, 0.9, -4.1, -3.9};
    constexpr int steps = 2000;
    double sum = 0.0, plain_sum = 0.0, quantities = 1e9, doubles = 1e9;
    for (int round = 0; round < rounds; ++round) {
        quantities = std::min(quantities, least(1, [&] {
                                  for (int i = 0; i < steps; ++i)
                                      sum +=
                                          advance(start, battery.kinetics, battery.whole, segment, seconds(600.0 + i))
                                              .state.available.value();
                              }));
        doubles = std::min(doubles, least(1, [&] {
                               for (int i = 0; i < steps; ++i)
                                   plain_sum += plain::advance(plain_start, kinetics, battery.whole.value(),
                                                               plain_segment, 600.0 + i)
                                                    .state.available;
                           }));
    }
    std::printf("a step of the battery: %.1f ns in quantities, %.1f ns in plain doubles, ratio %.2f%s\n",
                quantities * 1e9 / steps, doubles * 1e9 / steps, quantities / doubles,
                std::abs(sum - plain_sum) < 1e-9 * std::abs(sum) ? "" : " (they differ)");

    const std::string script = "/usr/bin/python3 " VOLTWRIGHT_TOP_FOLDER "/tests/bench/minute_steps.py 2>/dev/null";
    double numpy = 0.0;
    if (FILE* pipe = popen(script.c_str(), "r")) {
        if (std::fscanf(pipe, "%lf", &numpy) != 1) numpy = 0.0;
        pclose(pipe);
    }
    if (numpy > 0.0)
        std::printf("the same battery and loads at one-minute steps in numpy: %.0f ms, ratio %.0f\n", numpy * 1e3,
                    numpy / simulating);
    else
        std::printf("the same in numpy: not run, python3 has no numpy here\n");
    if (trip.days.size() != 14) return 1;
    // On a noisy machine a bound has to leave room; the figures above say how it stands.
    return simulating < 1e-3 && quantities < 1.5 * doubles && std::abs(sum - plain_sum) < 1e-9 * std::abs(sum) ? 0 : 1;
}

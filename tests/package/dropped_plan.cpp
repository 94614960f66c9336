// A trip over the cables of a plan that is dropped at once: the same as over those of one that is kept.
#include <voltwright/simulation/build_scenario.hpp>
#include <voltwright/simulation/simulate.hpp>
#include <voltwright/voltwright.hpp>

#include <iostream>
#include <string>
#include <vector>

using namespace voltwright;

int main(int count, char** words) {
    if (count != 2) return 2;
    const auto loaded = load_system(words[1]);
    if (!loaded) return 3;
    const System& system = loaded->system;
    const Plan plan = make_plan(system);
    const auto lowest = [&](const std::vector<LaidRun>& runs) {
        return simulate(trip_scenario(scenario_inputs(system, runs, built_in_tables()))).lowest;
    };
    const Ratio kept = lowest(laid_runs(plan.runs)), dropped = lowest(laid_runs(make_plan(system).runs));
    std::cout << "a plan that is dropped: " << show(kept) << " and " << show(dropped) << '\n';
    return kept == dropped ? 0 : 1;
}

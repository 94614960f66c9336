// A profile planned in a program: read, changed in one key, planned, and told. What is wrong with it is told at its place.

#include "voltwright/voltwright.hpp"

#include <iostream>
#include <string>
#include <vector>

using namespace voltwright;

int main(int count, char** words) {
    const std::string path = count > 1 ? words[1] : "examples/profiles/simplest.toml";
    const std::vector<std::string> changes = {"trip.days=4"};

    const auto profile = load_system(path, changes);
    if (!profile) {
        std::cerr << show(profile.wrong(), Style{});
        return 3;
    }
    const Plan plan = make_plan(profile->system);
    for (const RunPlan& run : plan.runs)
        if (const Candidate* cable = run.to_lay()) std::cout << show(cable->size) << '\n';
    std::cout << (plan.holds() ? "the plan holds\n" : "the plan does not hold\n");
    return plan.holds() ? 0 : 1;
}

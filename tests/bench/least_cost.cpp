/// How long it takes to choose the sizes of 30 runs of 20 sizes together, in microseconds, for a star, a comb and a
/// chain; and how much longer it takes to try every choice, where there are few enough.
///
///     bench_least_cost [--short]

#include "timing.hpp"

#include "voltwright/sizing/least_cost.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <random>
#include <vector>

namespace {

using namespace voltwright;
using bench::least;

constexpr double areas[] = {0.5, 0.75, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 13, 16, 20, 25, 35, 50, 70, 95};

enum class Shape { star, comb, chain };

/// Copper runs with loads of 0.5 to 5 A at places drawn at random, and room for three times the least loss.
std::vector<FedRun> vehicle(Shape shape, std::size_t count, std::size_t sizes, unsigned seed) {
    std::mt19937 draw(seed);
    const auto between = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(draw()) / 4294967296.0;
    };
    std::vector<FedRun> runs(count);
    std::vector<double> amperes_through(count), metres_out(count);
    std::vector<bool> ends(count, true);
    for (std::size_t i = 0; i < count; ++i) {
        metres_out[i] = between(0.3, 4.0);
        // A comb has its back in the even runs and a tooth at each of its joints.
        if (i > 0) runs[i].fed_by = shape == Shape::star ? 0 : shape == Shape::chain ? i - 1 : i - 1 - (i + 1) % 2;
        if (i > 1 && shape == Shape::comb && i % 2 == 0) runs[i].fed_by = i - 2;
        if (runs[i].fed_by) ends[*runs[i].fed_by] = false;
    }
    for (std::size_t i = count; i-- > 0;) {
        if (ends[i] || shape == Shape::chain) amperes_through[i] += between(0.5, 5.0);
        if (runs[i].fed_by) amperes_through[*runs[i].fed_by] += amperes_through[i];
    }
    std::vector<Voltage> least_lost(count);
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t k = 0; k < sizes; ++k) {
            const double area = areas[k * (std::size(areas) - 1) / (sizes - 1)];
            runs[i].options.push_back({2.0 * area * metres_out[i] * 8.89e-3,
                                      volts(amperes_through[i] * 2.0 * metres_out[i] * 0.0175 / area)});
        }
        least_lost[i] = runs[i].options.back().lost + (runs[i].fed_by ? least_lost[*runs[i].fed_by] : Voltage{});
    }
    const Voltage room = 3.0 * *std::max_element(least_lost.begin(), least_lost.end());
    for (std::size_t i = 0; i < count; ++i)
        if (ends[i]) runs[i].limit = room;
    return runs;
}

double cost_of(const std::vector<FedRun>& runs, const std::vector<std::size_t>& choice) {
    double cost = 0.0;
    for (std::size_t i = 0; i < runs.size(); ++i) cost += runs[i].options[choice[i]].cost;
    return cost;
}

/// Tries every choice; each run comes after the one that feeds it.
void try_all(const std::vector<FedRun>& runs, std::vector<Voltage>& lost, std::size_t run, double cost, double& best) {
    if (run == runs.size()) {
        best = std::min(best, cost);
        return;
    }
    for (const SizeOption& option : runs[run].options) {
        lost[run] = option.lost + (runs[run].fed_by ? lost[*runs[run].fed_by] : Voltage{});
        if (!runs[run].limit || lost[run] <= *runs[run].limit) try_all(runs, lost, run + 1, cost + option.cost, best);
    }
}

}  // namespace

int main(int count, char** words) {
    const bool brief = count > 1 && std::strcmp(words[1], "--short") == 0;
    const int rounds = brief ? 20 : 200;
    bool fast = true, same = true;
    const std::pair<const char*, Shape> shapes[] = {
        {"star", Shape::star}, {"comb", Shape::comb}, {"chain", Shape::chain}};
    for (const auto& [name, shape] : shapes) {
        std::vector<double> times;
        for (unsigned seed = 1; seed <= (brief ? 5u : 25u); ++seed) {
            const std::vector<FedRun> runs = vehicle(shape, 30, 20, seed);
            bool found = true;
            times.push_back(least(rounds, [&] { found = found && least_cost(runs).has_value(); }));
            same = same && found;
        }
        std::sort(times.begin(), times.end());
        std::printf("a %s of 30 runs, 20 sizes: %.0f us, the slowest of %zu drawn at random %.0f us\n", name,
                    times[times.size() / 2] * 1e6, times.size(), times.back() * 1e6);
        fast = fast && times[times.size() / 2] < 1e-3;
    }

    for (const auto& [name, shape] : shapes) {
        const std::vector<FedRun> runs = vehicle(shape, 7, 6, 1);
        std::optional<std::vector<std::size_t>> choice;
        const double chosen = least(rounds, [&] { choice = least_cost(runs); });
        double best = 0.0;
        const double tried = least(brief ? 1 : 3, [&] {
            std::vector<Voltage> lost(runs.size());
            best = 1e300;
            try_all(runs, lost, 0, 0.0, best);
        });
        const bool agree = choice && std::abs(cost_of(runs, *choice) - best) <= 1e-12 * best;
        same = same && agree;
        std::printf("a %s of 7 runs, 6 sizes: %.1f us, every choice tried %.0f us, ratio %.0f%s\n", name, chosen * 1e6,
                    tried * 1e6, tried / chosen, agree ? "" : " (they differ)");
    }
    return fast && same ? 0 : 1;
}

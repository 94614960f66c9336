/// How long the exact choice of thirty runs of twenty sizes takes: a star, a comb and a chain; and against trying every
/// choice, on a tree that is small enough for that.
///
///     bench_least_copper [--short]
///
/// Times are the least of many, because everything that disturbs a measurement makes it longer.

#include "voltwright/sizing/least_copper.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <functional>
#include <optional>
#include <vector>

namespace {

using namespace voltwright;
using Clock = std::chrono::steady_clock;
using Runs = std::vector<CopperRun>;

template <class Work>
double least_seconds(int rounds, Work&& work) {
    double best = 1e9;
    for (int i = 0; i < rounds; ++i) {
        const auto start = Clock::now();
        work();
        best = std::min(best, std::chrono::duration<double>(Clock::now() - start).count());
    }
    return best;
}

/// Runs of unlike lengths and currents; `parent` says what each goes on from.
Runs forest(std::size_t count, std::size_t sizes, const std::function<std::optional<std::size_t>(std::size_t)>& parent,
            bool ends_alone) {
    Runs runs(count);
    std::vector<int> behind(count, 0);
    for (std::size_t i = count; i-- > 0;) {
        runs[i].parent = parent(i);
        if (runs[i].parent) behind[*runs[i].parent] += behind[i] + 1;
    }
    for (std::size_t i = 0; i < count; ++i) {
        const double length = 0.7 + 0.37 * static_cast<double>((i * 7) % 11), current = 2.0 + 1.3 * behind[i];
        double area = 0.75;
        for (std::size_t k = 0; k < sizes; ++k, area *= 1.31)
            runs[i].sizes.push_back({area * length, millivolts(36.0 * length * current / area)});
        if (!ends_alone || behind[i] == 0)
            runs[i].limit = millivolts(360.0 + static_cast<double>((i * 13) % 5) * 170.0);
    }
    return runs;
}

std::optional<double> by_trying_all(const Runs& runs) {
    std::optional<double> least;
    std::vector<std::size_t> sizes(runs.size(), 0);
    std::vector<Voltage> lost(runs.size());
    for (;;) {
        double cost = 0.0;
        bool fits = true;
        for (std::size_t i = 0; i < runs.size(); ++i) {
            const CopperSize& size = runs[i].sizes[sizes[i]];
            cost += size.cost;
            lost[i] = size.lost + (runs[i].parent ? lost[*runs[i].parent] : Voltage{});
            fits = fits && (!runs[i].limit || lost[i] <= *runs[i].limit);
        }
        if (fits && (!least || cost < *least)) least = cost;
        std::size_t i = 0;
        while (i < runs.size() && ++sizes[i] == runs[i].sizes.size()) sizes[i++] = 0;
        if (i == runs.size()) return least;
    }
}

}  // namespace

int main(int count, char** words) {
    const int rounds = count > 1 && std::strcmp(words[1], "--short") == 0 ? 10 : 100;
    using Parent = std::optional<std::size_t>;
    const struct {
        const char* name;
        Runs runs;
    } cases[] = {
        {"a star", forest(
                       30, 20, [](std::size_t i) { return i ? Parent(0) : Parent(); }, true)},
        {"a comb", forest(
                       30, 20, [](std::size_t i) { return i ? Parent(i % 2 ? i - 1 : i - 2) : Parent(); }, true)},
        {"a chain", forest(
                        30, 20, [](std::size_t i) { return i ? Parent(i - 1) : Parent(); }, false)},
    };
    double worst = 0.0;
    for (const auto& [name, runs] : cases) {
        bool found = false;
        const double time = least_seconds(rounds, [&, &all = runs] { found = least_copper(all).has_value(); });
        worst = std::max(worst, time);
        std::printf("%-8s of 30 runs of 20 sizes: %7.0f us%s\n", name, time * 1e6,
                    found ? "" : ", no choice keeps its limits");
    }
    const Runs small = forest(
        6, 8, [](std::size_t i) { return i ? Parent(0) : Parent(); }, true);
    std::optional<double> tried;
    const double all = least_seconds(std::max(rounds / 10, 1), [&] { tried = by_trying_all(small); });
    std::optional<std::vector<std::size_t>> chosen;
    const double exact = least_seconds(rounds, [&] { chosen = least_copper(small); });
    if (!tried || !chosen) return 1;
    double cost = 0.0;
    for (std::size_t i = 0; i < small.size(); ++i) cost += small[i].sizes[(*chosen)[i]].cost;
    std::printf("a star of 6 runs of 8 sizes: %.1f us, trying all %.0f us, ratio %.0f%s\n", exact * 1e6, all * 1e6,
                all / exact, std::abs(cost - *tried) < 1e-9 ? "" : " (they differ)");
    return worst < 20e-3 && std::abs(cost - *tried) < 1e-9 ? 0 : 1;
}

// The choice across runs against exhaustive search, over several hundred random trees.

#include "voltwright/sizing/least_copper.hpp"
#include "testing.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <optional>
#include <random>
#include <vector>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

using Runs = std::vector<CopperRun>;
using Sizes = std::vector<std::size_t>;

/// What a choice costs, or nothing when it passes a limit.
std::optional<double> cost_of(const Runs& runs, const Sizes& sizes) {
    double cost = 0.0;
    std::vector<Voltage> lost(runs.size());
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const CopperSize& size = runs[i].sizes[sizes[i]];
        cost += size.cost;
        lost[i] = size.lost + (runs[i].parent ? lost[*runs[i].parent] : Voltage{});
        if (runs[i].limit && lost[i] > *runs[i].limit + volts(1e-9)) return {};
    }
    return cost;
}

/// The least cost of all choices there are, tried one after the other.
std::optional<double> least_by_trying_all(const Runs& runs) {
    std::optional<double> least;
    Sizes sizes(runs.size(), 0);
    for (;;) {
        if (const auto cost = cost_of(runs, sizes); cost && (!least || *cost < *least)) least = cost;
        std::size_t i = 0;
        while (i < runs.size() && ++sizes[i] == runs[i].sizes.size()) sizes[i++] = 0;
        if (i == runs.size()) return least;
    }
}

Runs random_runs(std::mt19937& draw) {
    const auto whole = [&](int from, int to) {
        return from + static_cast<int>(draw() % static_cast<unsigned>(to - from + 1));
    };
    Runs runs(static_cast<std::size_t>(whole(1, 6)));
    for (std::size_t i = 0; i < runs.size(); ++i) {
        if (i > 0 && whole(0, 4) > 0) runs[i].parent = static_cast<std::size_t>(whole(0, static_cast<int>(i) - 1));
        const double length = 0.1 * whole(3, 80), current = 0.5 * whole(1, 60);
        const int sizes = whole(1, 5);
        double area = 0.8 * whole(1, 4);
        for (int k = 0; k < sizes; ++k, area *= 1.58) {
            // Round figures, so that equal sums happen.
            runs[i].sizes.push_back(
                {std::round(area * length), millivolts(std::round(36.0 * length * current / area))});
        }
        if (whole(0, 3) > 0) runs[i].limit = millivolts(20.0 * whole(2, 60));
    }
    return runs;
}

}  // namespace

TEST_CASE("no choice that keeps the limits costs less, and none is missed") {
    std::mt19937 draw(20);
    int solved = 0, hopeless = 0;
    for (int number = 0; number < 1500; ++number) {
        CAPTURE(number);
        const Runs runs = random_runs(draw);
        const auto found = least_copper(runs);
        const auto least = least_by_trying_all(runs);
        REQUIRE(found.has_value() == least.has_value());
        if (!found) {
            ++hopeless;
            continue;
        }
        ++solved;
        const auto cost = cost_of(runs, *found);
        REQUIRE(cost);
        CHECK(std::abs(*cost - *least) < 1e-9);
    }
    CHECK(solved > 300);
    CHECK(hopeless > 100);
}

TEST_CASE("more volts lost in a run never make the whole cheaper, nor a tighter limit") {
    std::mt19937 draw(21);
    for (int number = 0; number < 600; ++number) {
        CAPTURE(number);
        Runs runs = random_runs(draw);
        const auto before = least_copper(runs);
        const std::size_t changed = draw() % runs.size();
        if (number % 2 == 0) {
            for (CopperSize& size : runs[changed].sizes) size.lost *= 1.2;
        } else {
            runs[changed].limit = runs[changed].limit.value_or(volts(1)) * 0.8;
        }
        const auto after = least_copper(runs);
        if (!before) {
            CHECK_FALSE(after);
            continue;
        }
        if (after) CHECK(*cost_of(runs, *after) >= *cost_of(runs, *before) - 1e-9);
    }
}

TEST_CASE("a thicker trunk that lets two branches be thin is taken when that is cheaper, and not when it is not") {
    // Trunk of two sizes, two branches of two sizes each; 0.36 V from the source to each end.
    const auto runs = [](double thick_trunk) {
        return Runs{{{}, {{2.0, millivolts(200)}, {thick_trunk, millivolts(100)}}, {}},
                    {0, {{1.0, millivolts(250)}, {3.0, millivolts(150)}}, millivolts(360)},
                    {0, {{1.0, millivolts(250)}, {3.0, millivolts(150)}}, millivolts(360)}};
    };
    CHECK(least_copper(runs(5.0)) == Sizes{1, 0, 0});  // 7 against 8
    CHECK(least_copper(runs(7.0)) == Sizes{0, 1, 1});  // 9 against 8
    CHECK(least_copper(runs(6.0)) == Sizes{1, 0, 0});  // 8 against 8: the thicker one nearer to the source
}

TEST_CASE("where nothing fits nothing is chosen, and an impossible order is refused") {
    CHECK_FALSE(least_copper(Runs{{{}, {{1.0, volts(0.4)}}, volts(0.3)}}));
    CHECK_FALSE(least_copper(Runs{{{}, {{1.0, volts(0.2)}}, {}}, {0, {{1.0, volts(0.2)}}, volts(0.3)}}));
    CHECK(least_copper(Runs{}) == Sizes{});
    CHECK_THROWS_AS((void)least_copper(Runs{{1, {{1.0, volts(0.2)}}, {}}, {{}, {{1.0, volts(0.2)}}, {}}}),
                    std::logic_error);
}

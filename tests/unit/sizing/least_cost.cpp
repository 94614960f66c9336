// Sizes chosen together, in cases small enough to be worked out by hand.

#include "unmet_limits.hpp"

#include "voltwright/sizing/least_cost.hpp"

#include "testing.hpp"
#include "voltwright/units/literals.hpp"

#include <cmath>
#include <limits>
#include <stdexcept>

using namespace voltwright;
using namespace literals;

namespace {

using Chosen = std::vector<std::size_t>;

std::optional<Chosen> nothing() { return {}; }

double cost_of(const std::vector<FedRun>& runs, const Chosen& chosen) {
    double cost = 0.0;
    for (std::size_t i = 0; i < runs.size(); ++i) cost += runs[i].options.at(chosen.at(i)).cost;
    return cost;
}

}  // namespace

TEST_CASE("a thicker trunk that frees two branches is the cheaper whole") {
    // Thin trunk, 0.4 V: 0.1 V is left for each branch, 1.0 + 2 * 1.7 = 4.4. Thick trunk, 0.2 V: 2.0 + 2 * 1.0 = 4.0.
    const FedRun trunk{{}, {{1.0, 0.4_V}, {2.0, 0.2_V}}};
    const FedRun branch{0, {{1.0, 0.3_V}, {1.7, 0.1_V}}, 0.5_V};
    CHECK(least_cost({trunk, branch, branch}) == Chosen{1, 0, 0});
    // For one branch alone the thin trunk is the cheaper one: 1.0 + 1.7 against 2.0 + 1.0.
    CHECK(least_cost({trunk, branch}) == Chosen{0, 1});
}

TEST_CASE("each branch is held to its own limit") {
    const FedRun trunk{{}, {{1.0, 0.4_V}, {2.0, 0.2_V}}};
    const std::vector<SizeOption> sizes = {{1.0, 0.3_V}, {1.5, 0.2_V}, {3.0, 0.1_V}};
    // Thick trunk: 2.0, and 0.2 V left for the first (1.5), 0.5 V for the second (1.0): 4.5. Thin trunk: the first does
    // not fit at all.
    CHECK(least_cost({trunk, {0, sizes, 0.4_V}, {0, sizes, 0.7_V}}) == Chosen{1, 1, 0});
}

TEST_CASE("a limit at an inner place binds the runs before it and not those behind") {
    const std::vector<SizeOption> sizes = {{1.0, 0.3_V}, {2.0, 0.2_V}, {4.0, 0.1_V}};
    // Without the inner limit, 0.9 V fit three thin runs.
    CHECK(least_cost({{{}, sizes}, {0, sizes}, {1, sizes, 0.9_V}}) == Chosen{0, 0, 0});
    // 0.5 V at the second: one of the first two has to be thicker, the thinner one nearest the source.
    CHECK(least_cost({{{}, sizes}, {0, sizes, 0.5_V}, {1, sizes, 0.9_V}}) == Chosen{0, 1, 0});
    // 0.2 V at the first, which has no more use for the rest.
    CHECK(least_cost({{{}, sizes, 0.2_V}, {0, sizes}, {1, sizes, 0.9_V}}) == Chosen{1, 0, 0});
}

TEST_CASE("a size from the middle of the ladder is found, though no mixture of others would use it") {
    // 2.9 lies above the line from 4.0 at 0.1 V to 1.0 at 0.3 V, so that a method of slopes alone passes it over.
    const std::vector<SizeOption> sizes = {{1.0, 0.3_V}, {2.9, 0.2_V}, {4.0, 0.1_V}};
    CHECK(least_cost({{{}, sizes, 0.25_V}}) == Chosen{1});
    // Two in a row with 0.4 V: 1.0 + 4.0 is less than 2.9 + 2.9.
    CHECK(least_cost({{{}, sizes}, {0, sizes, 0.4_V}}) == Chosen{0, 2});
}

TEST_CASE("without a limit the cheapest of each is taken, wherever it stands in the list") {
    const std::vector<FedRun> runs = {{{}, {{3.0, 0.1_V}, {1.0, 5_V}, {2.0, 0.2_V}}}, {0, {{2.0, 9_V}, {4.0, 1_V}}}};
    CHECK(least_cost(runs) == Chosen{1, 0});
}

TEST_CASE("runs that have one size keep it") {
    std::vector<FedRun> runs = {{{}, {{1.0, 0.2_V}}}, {0, {{1.0, 0.3_V}}, 0.5_V}};
    CHECK(least_cost(runs) == Chosen{0, 0});
    runs[1].limit = 0.4_V;
    CHECK(least_cost(runs) == nothing());
}

TEST_CASE("one run of an owned size leaves the rest to the others") {
    const std::vector<FedRun> runs = {{{}, {{1.0, 0.4_V}}}, {0, {{1.0, 0.3_V}, {1.7, 0.1_V}}, 0.5_V}};
    CHECK(least_cost(runs) == Chosen{0, 1});
}

TEST_CASE("among choices of the same cost the one that loses the fewest volts is taken") {
    const std::vector<SizeOption> sizes = {{1.0, 0.3_V}, {1.0, 0.1_V}, {1.0, 0.2_V}};
    CHECK(least_cost({{{}, sizes, 1_V}}) == Chosen{1});
    // Thick trunk and thin branches, or thin trunk and thick branches: 4.0 each; 0.2 + 2 * 0.3 V against 0.4 + 2 * 0.1.
    const FedRun trunk{{}, {{1.0, 0.4_V}, {2.0, 0.2_V}}};
    const FedRun branch{0, {{1.0, 0.3_V}, {1.5, 0.1_V}}, 0.5_V};
    CHECK(least_cost({trunk, branch, branch}) == Chosen{0, 1, 1});
}

TEST_CASE("among choices of the same cost and volts the run nearest the source is the thinner one") {
    const std::vector<SizeOption> sizes = {{1.0, 0.3_V}, {2.0, 0.1_V}};
    CHECK(least_cost({{{}, sizes}, {0, sizes, 0.4_V}}) == Chosen{0, 1});
    // The same two runs listed the other way round.
    CHECK(least_cost({{1, sizes, 0.4_V}, {{}, sizes}}) == Chosen{1, 0});
}

TEST_CASE("each source has its own ways") {
    const std::vector<SizeOption> sizes = {{1.0, 0.3_V}, {2.0, 0.2_V}, {4.0, 0.1_V}};
    CHECK(least_cost({{{}, sizes, 0.1_V}, {{}, sizes, 0.2_V}, {{}, sizes}, {0, sizes, 0.4_V}, {1, sizes, 0.4_V}}) ==
          Chosen{2, 1, 0, 0, 1});
}

TEST_CASE("volts that add up to the limit fit it, whatever binary fractions make of them") {
    // In doubles 0.1 + 0.2 is more than 0.3.
    CHECK(least_cost({{{}, {{1.0, 0.1_V}}}, {0, {{1.0, 0.2_V}}, 0.3_V}}) == Chosen{0, 0});
    CHECK(testing::unmet_limits({{{}, {{1.0, 0.1_V}}}, {0, {{1.0, 0.2_V}}, 0.3_V}}).empty());
    CHECK(least_cost({{{}, {{1.0, 0.1_V}}}, {0, {{1.0, 0.2_V}}, volts(0.3 - 1e-11)}}) == nothing());
}

TEST_CASE("costs that are the same in decimals are the same") {
    // In doubles 1.1 + 2.2 is more than 3.3; as equals, the pair that loses 0.25 V wins over the one that loses 0.3 V.
    CHECK(least_cost({{{}, {{1.1, 0.2_V}, {3.3, 0.1_V}}}, {0, {{2.2, 0.05_V}, {0.0, 0.2_V}}, 0.3_V}}) ==
          Chosen{0, 0});
}

TEST_CASE("a cost that is less in the twelfth figure is less") {
    CHECK(least_cost({{{}, {{1.00000000001, 0.1_V}, {1.0, 0.2_V}}, 0.3_V}}) == Chosen{1});
}

TEST_CASE("when nothing fits the limits that cannot be met are named, with what would be lost at least") {
    const std::vector<SizeOption> sizes = {{1.0, 0.3_V}, {2.0, 0.2_V}, {4.0, 0.1_V}};
    const std::vector<FedRun> runs = {{{}, sizes, 0.1_V}, {0, sizes, 0.15_V}, {0, sizes, 0.2_V}, {2, sizes, -0.1_V}};
    CHECK(least_cost(runs) == nothing());
    const auto unmet = testing::unmet_limits(runs);
    REQUIRE(unmet.size() == 2);
    CHECK(unmet[0].run == 1);
    CHECK(unmet[0].least == near(0.2_V, volts(1e-12)));
    CHECK(unmet[1].run == 3);
    CHECK(unmet[1].least == near(0.3_V, volts(1e-12)));
}

TEST_CASE("a run without any size has no answer, and limits behind it are not spoken of") {
    const std::vector<FedRun> runs = {{{}, {}}, {0, {{1.0, 2_V}}, 1_V}, {{}, {{1.0, 2_V}}, 1_V}};
    CHECK(least_cost(runs) == nothing());
    const auto unmet = testing::unmet_limits(runs);
    REQUIRE(unmet.size() == 1);
    CHECK(unmet[0].run == 2);
}

TEST_CASE("no runs need no sizes") {
    CHECK(least_cost({}) == Chosen{});
    CHECK(testing::unmet_limits({}).empty());
}

TEST_CASE("an infinite limit is none") {
    const std::vector<SizeOption> sizes = {{1.0, 0.3_V}, {2.0, 0.2_V}};
    CHECK(least_cost({{{}, sizes, volts(std::numeric_limits<double>::infinity())}}) == Chosen{0});
    CHECK(testing::unmet_limits({{{}, sizes, volts(std::numeric_limits<double>::infinity())}}).empty());
}

TEST_CASE("what is no forest of runs is refused") {
    const std::vector<SizeOption> sizes = {{1.0, 0.3_V}};
    const double never = std::numeric_limits<double>::quiet_NaN();
    const std::vector<std::vector<FedRun>> wrong = {
        {{1, sizes}, {0, sizes}},       // a circle
        {{0, sizes}},                   // feeds itself
        {{{}, sizes}, {2, sizes}},      // fed by none of them
        {{{}, {{never, 0.3_V}}}},       //
        {{{}, {{-1.0, 0.3_V}}}},        //
        {{{}, {{1.0, volts(never)}}}},  //
        {{{}, {{1.0, -0.3_V}}}},        //
        {{{}, {{1.0, volts(1e7)}}}},    //
        {{{}, sizes, volts(never)}},    //
        {{{}, {{1e308, 0.3_V}}}, {{}, {{1e308, 0.3_V}}}},
    };
    for (std::size_t i = 0; i < wrong.size(); ++i) {
        CAPTURE(i);
        CHECK_THROWS_AS(least_cost(wrong[i]), std::logic_error);
    }
}

namespace {

// A textbook's tapped line of direct current: sections of 40, 60, 50 and 100 m that carry 220, 190, 150 and 50 A, 10 V
// for all, 1.78e-8 ohm metres, out and back. Read: a loop of 0.030581 ohm per 100 m, hence 1.164 cm2.
struct Section {
    double metres_out, amperes_through;
};
constexpr Section tapped_line[] = {{40, 220}, {60, 190}, {50, 150}, {100, 50}};

Voltage lost(const Section& section, double area) {
    return volts(2.0 * 1.78e-8 * section.metres_out * section.amperes_through / (area * 1e-6));
}

}  // namespace

TEST_CASE("a tapped line of one size: a textbook's 1.164 cm2") {
    // One size for all sections is one choice: one run, which loses the volts of all of them.
    FedRun line{{}, {}, 10_V};
    constexpr double step = 0.01;
    for (int k = 1; k < 20000; ++k) {
        Voltage all{};
        for (const Section& section : tapped_line) all += lost(section, step * k);
        line.options.push_back({step * k, all});
    }
    const auto chosen = least_cost({line});
    REQUIRE(chosen);
    CHECK(line.options[chosen->front()].cost == near(116.4, 0.05));
}

TEST_CASE("the same line with a size for each section: areas go with the square root of the current") {
    // No source prints it; recomputed. Least Σ L·A with Σ 2·ρ·I·L/A = U: by Lagrange's multiplier A = k·√I, with
    // k = 2·ρ/U · Σ L·√I, and the copper is (Σ L·√I)²/(Σ L · Σ I·L) = 0.9182 of that of one size.
    double of_roots = 0.0;
    for (const Section& section : tapped_line) of_roots += section.metres_out * std::sqrt(section.amperes_through);
    const double k = 2.0 * 1.78e-8 / 10.0 * of_roots * 1e6;

    std::vector<FedRun> runs;
    for (const Section& section : tapped_line) {
        FedRun run{runs.empty() ? std::nullopt : std::optional(runs.size() - 1), {}};
        for (int area = 20; area <= 200; ++area) run.options.push_back({section.metres_out * area, lost(section, area)});
        runs.push_back(run);
    }
    runs.back().limit = 10_V;
    const auto chosen = least_cost(runs);
    REQUIRE(chosen);
    // In steps of 1 mm2: each within two steps of the smooth answer, and the whole within 0.1 % of it.
    double smooth = 0.0;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        CAPTURE(i);
        const double area = k * std::sqrt(tapped_line[i].amperes_through);
        CHECK(runs[i].options[(*chosen)[i]].cost / tapped_line[i].metres_out == near(area, 2.0));
        smooth += area * tapped_line[i].metres_out;
    }
    CHECK(cost_of(runs, *chosen) >= smooth);
    CHECK(cost_of(runs, *chosen) == near(smooth, 0.001 * smooth));
    CHECK(smooth / (116.4 * 250.0) == near(0.9182, 0.0005));
}

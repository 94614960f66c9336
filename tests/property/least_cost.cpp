// Laws of sizes chosen together, over forests of runs drawn at random, held against two slow ways that cannot err in
// the same place: every choice tried, and a table over every volt.

#include "unmet_limits.hpp"

#include "voltwright/sizing/least_cost.hpp"
#include "testing.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <random>

using namespace voltwright;

namespace {

constexpr unsigned forests = 900;
using Runs = std::vector<FedRun>;
using Chosen = std::vector<std::size_t>;

enum class Figures {
    whole,   ///< eighths of a volt and whole kilograms: sums are exact, and ties are everywhere
    cables,  ///< volts fall and costs rise with the area
    any,     ///< neither follows from the other
};

class Dice {
public:
    explicit Dice(unsigned seed) : engine_(seed) {}
    std::size_t whole(std::size_t from, std::size_t to) { return from + engine_() % (to - from + 1); }
    double between(double from, double to) {
        return from + (to - from) * static_cast<double>(engine_()) / 4294967296.0;
    }
    std::mt19937& engine() { return engine_; }

private:
    std::mt19937 engine_;
};

Figures figures_of(unsigned seed) {
    return seed % 3 == 0 ? Figures::whole : seed % 3 == 1 ? Figures::cables : Figures::any;
}

std::vector<SizeOption> options(Dice& dice, Figures figures, std::size_t most) {
    std::vector<SizeOption> options(dice.whole(1, most));
    double area = dice.between(0.5, 2.0);
    const double metres_out = dice.between(0.3, 5.0), current = dice.between(0.5, 20.0);
    for (SizeOption& option : options) {
        if (figures == Figures::whole)
            option = {static_cast<double>(dice.whole(0, 9)), volts(0.125 * static_cast<double>(dice.whole(0, 8)))};
        else if (figures == Figures::any)
            option = {dice.between(0.0, 3.0), volts(dice.between(0.0, 1.0))};
        else
            option = {0.018 * area * metres_out, volts(0.035 * metres_out * current / area)};
        area *= dice.between(1.2, 2.5);
    }
    return options;
}

Runs forest(Dice& dice, Figures figures, std::size_t most_runs, std::size_t most_sizes) {
    Runs runs(dice.whole(1, most_runs));
    std::vector<Voltage> least(runs.size());
    const std::size_t spread_of_feeders = dice.whole(0, 2);
    for (std::size_t i = 0; i < runs.size(); ++i) {
        if (i > 0 && dice.whole(0, 9) > 0) {
            // Deep, bushy, or as it comes.
            runs[i].fed_by = spread_of_feeders == 0   ? i - 1
                             : spread_of_feeders == 1 ? dice.whole(0, (i - 1) / 3)
                                                      : dice.whole(0, i - 1);
            least[i] = least[*runs[i].fed_by];
        }
        runs[i].options = options(dice, figures, most_sizes);
        least[i] += std::min_element(runs[i].options.begin(), runs[i].options.end(), [](const auto& a, const auto& b) {
                        return a.lost < b.lost;
                    })->lost;
    }
    const std::size_t generous = dice.whole(0, 40);
    for (std::size_t i = 0; i < runs.size(); ++i) {
        if (dice.whole(0, 2) == 0) continue;
        if (figures == Figures::whole)
            runs[i].limit = least[i] + volts(0.125 * (static_cast<double>(dice.whole(0, generous / 2 + 2)) - 0.5));
        else
            runs[i].limit = least[i] * dice.between(generous == 0 ? 0.9 : 1.0, 1.5 + static_cast<double>(generous) / 8);
    }
    return runs;
}

/// The same forest with its runs in another order: run i comes to stand at `places[i]`.
Runs moved(const Runs& runs, const std::vector<std::size_t>& places) {
    Runs other(runs.size());
    for (std::size_t i = 0; i < runs.size(); ++i) {
        other[places[i]] = runs[i];
        if (runs[i].fed_by) other[places[i]].fed_by = places[*runs[i].fed_by];
    }
    return other;
}

double cost_of(const Runs& runs, const Chosen& chosen) {
    double cost = 0.0;
    for (std::size_t i = 0; i < runs.size(); ++i) cost += runs[i].options.at(chosen[i]).cost;
    return cost;
}

bool fits(const Runs& runs, const Chosen& chosen) {
    for (std::size_t i = 0; i < runs.size(); ++i) {
        if (!runs[i].limit) continue;
        Voltage lost = runs[i].options.at(chosen[i]).lost;
        for (std::size_t at = i; runs[at].fed_by;) {
            at = *runs[at].fed_by;
            lost += runs[at].options.at(chosen[at]).lost;
        }
        if (lost > *runs[i].limit + volts(1e-11)) return false;
    }
    return true;
}

/// Every choice, the runs' feeders before them; the first among equals.
struct AllTried {
    explicit AllTried(const Runs& all) : runs(all), lost(all.size()), choice(all.size()) { from(0, 0.0, Voltage{}); }

    void from(std::size_t run, double cost, Voltage lost_in_all) {
        if (run == runs.size()) {
            const std::pair price(cost, lost_in_all);
            if (!best || price < least) {
                best = choice;
                least = price;
            }
            return;
        }
        for (std::size_t k = 0; k < runs[run].options.size(); ++k) {
            const SizeOption& option = runs[run].options[k];
            lost[run] = option.lost + (runs[run].fed_by ? lost[*runs[run].fed_by] : Voltage{});
            if (runs[run].limit && lost[run] > *runs[run].limit) continue;
            choice[run] = k;
            from(run + 1, cost + option.cost, lost_in_all + option.lost);
        }
    }

    const Runs& runs;
    std::vector<Voltage> lost;
    Chosen choice;
    std::optional<Chosen> best = {};
    std::pair<double, Voltage> least = {};
};

/// The least cost by a table over every eighth of a volt that may be lost before a run; infinite when nothing fits.
double by_table(const Runs& runs) {
    constexpr std::size_t rows = 8 * 40;
    const double never = std::numeric_limits<double>::infinity();
    std::vector<std::vector<double>> behind(runs.size(), std::vector<double>(rows, 0.0));
    double all = 0.0;
    for (std::size_t i = runs.size(); i-- > 0;) {
        std::vector<double> table(rows, never);
        for (std::size_t before = 0; before < rows; ++before)
            for (const SizeOption& option : runs[i].options) {
                const std::size_t after = before + static_cast<std::size_t>(std::lround(in_volts(option.lost) * 8.0));
                if (after >= rows) continue;
                if (runs[i].limit && volts(0.125 * static_cast<double>(after)) > *runs[i].limit) continue;
                table[before] = std::min(table[before], option.cost + behind[i][after]);
            }
        if (!runs[i].fed_by)
            all += table.front();
        else
            for (std::size_t before = 0; before < rows; ++before) behind[*runs[i].fed_by][before] += table[before];
    }
    return all;
}

/// Infinite when nothing fits.
double cost_of_best(const Runs& runs) {
    const auto chosen = least_cost(runs);
    return chosen ? cost_of(runs, *chosen) : std::numeric_limits<double>::infinity();
}

double slack(double cost) { return 1e-12 * cost + 1e-12; }

}  // namespace

TEST_CASE("sizes chosen together cost what the best of all choices costs") {
    int answered = 0;
    for (unsigned seed = 0; seed < forests; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const Runs runs = forest(dice, figures_of(seed), 7, 6);
        const AllTried tried(runs);
        const auto chosen = least_cost(runs);
        REQUIRE(chosen.has_value() == tried.best.has_value());
        CHECK(testing::unmet_limits(runs).empty() == chosen.has_value());
        if (!chosen) continue;
        ++answered;
        CHECK(fits(runs, *chosen));
        CHECK(cost_of(runs, *chosen) == near(tried.least.first, slack(tried.least.first)));
        // Where sums are exact, so is the rule for ties.
        if (figures_of(seed) == Figures::whole) CHECK(*chosen == *tried.best);
    }
    CHECK(answered > static_cast<int>(forests) / 2);
    CHECK(answered < static_cast<int>(forests));
}

TEST_CASE("sizes of thirty runs chosen together cost what a table over every volt finds") {
    int answered = 0;
    for (unsigned seed = 0; seed < 400; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 5000);
        const Runs runs = forest(dice, Figures::whole, 30, 12);
        const double expected = by_table(runs);
        const auto chosen = least_cost(runs);
        REQUIRE(chosen.has_value() == std::isfinite(expected));
        if (!chosen) continue;
        ++answered;
        CHECK(fits(runs, *chosen));
        CHECK(cost_of(runs, *chosen) == expected);
    }
    CHECK(answered > 100);
}

TEST_CASE("more volts lost in a run never make the whole cheaper") {
    for (unsigned seed = 0; seed < forests; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        Runs runs = forest(dice, figures_of(seed), 12, 6);
        const double before = cost_of_best(runs);
        if (!std::isfinite(before)) continue;
        const double factor = dice.between(1.0, 1.5);
        for (SizeOption& option : runs[dice.whole(0, runs.size() - 1)].options) option.lost *= factor;
        CHECK(cost_of_best(runs) >= before - slack(before));
    }
}

TEST_CASE("a wider limit never makes the whole dearer") {
    for (unsigned seed = 0; seed < forests; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        Runs runs = forest(dice, figures_of(seed), 12, 6);
        const double before = cost_of_best(runs);
        FedRun& run = runs[dice.whole(0, runs.size() - 1)];
        if (!std::isfinite(before) || !run.limit) continue;
        *run.limit *= dice.between(1.0, 2.0);
        CHECK(cost_of_best(runs) <= before + slack(before));
        run.limit.reset();
        CHECK(cost_of_best(runs) <= before + slack(before));
    }
}

TEST_CASE("the unit of cost does not change the choice") {
    for (unsigned seed = 0; seed < forests; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const Runs runs = forest(dice, figures_of(seed), 12, 6);
        const auto chosen = least_cost(runs);
        for (const double factor : {1e-3, 0.25, 7.0, 1e9}) {
            CAPTURE(factor);
            Runs scaled = runs;
            for (FedRun& run : scaled)
                for (SizeOption& option : run.options) option.cost *= factor;
            CHECK(least_cost(scaled) == chosen);
        }
    }
}

TEST_CASE("the order in which the runs are listed does not change the choice") {
    for (unsigned seed = 0; seed < forests; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const Runs runs = forest(dice, figures_of(seed), 12, 6);
        std::vector<std::size_t> places(runs.size());
        std::iota(places.begin(), places.end(), std::size_t{0});
        for (std::size_t i = places.size(); i-- > 1;) std::swap(places[i], places[dice.whole(0, i)]);
        const auto chosen = least_cost(runs);
        const auto other = least_cost(moved(runs, places));
        REQUIRE(chosen.has_value() == other.has_value());
        if (!chosen) continue;
        for (std::size_t i = 0; i < runs.size(); ++i) CHECK((*other)[places[i]] == (*chosen)[i]);
    }
}

// Laws of a network, over three hundred random trees.

#include "voltwright/circuit/network.hpp"
#include "testing.hpp"

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/uniform_01.hpp>
#include <boost/random/uniform_int_distribution.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>
#include <vector>

using namespace voltwright;

namespace {

constexpr int trees = 300;

class Dice {
public:
    explicit Dice(int seed) : engine_(static_cast<unsigned>(seed) + 1) {}

    double between(double low, double high) {
        return low + (high - low) * boost::random::uniform_01<double>()(engine_);
    }
    std::size_t below(std::size_t end) {
        return boost::random::uniform_int_distribution<std::size_t>(0, end - 1)(engine_);
    }

private:
    boost::random::mt19937 engine_;
};

struct Tree {
    Voltage source{};
    Resistance internal{};
    std::vector<NetworkSection> sections;
};

enum class Feeding { none, some };

/// Up to thirty sections; loads that together stay well below what the cable can bring, unless a caller multiplies them.
Tree random_tree(int seed, Feeding feeding = Feeding::none) {
    Dice dice(seed);
    Tree tree{volts(dice.between(11.5, 14.5)), milliohms(dice.between(0, 8)), {}};
    const std::size_t count = 1 + dice.below(30);
    for (std::size_t i = 0; i < count; ++i) {
        // Some chains, some bushes; the occasional section without resistance.
        const std::size_t from = dice.below(4) == 0 ? dice.below(i + 1) : i - std::min<std::size_t>(i, dice.below(3));
        NetworkSection section{from == 0 ? std::optional<std::size_t>{} : from - 1,
                               milliohms(dice.below(8) == 0 ? 0.0 : dice.between(0.5, 20)),
                               {}};
        const double share = 30.0 / static_cast<double>(count);
        for (std::size_t load = dice.below(3); load > 0; --load) {
            const std::size_t kind = dice.below(feeding == Feeding::some ? 4 : 3);
            if (kind == 0) section.loads.push_back({watts(dice.between(0.2, 2.5) * share)});
            if (kind == 1) section.loads.push_back({amperes(dice.between(0.02, 0.15) * share)});
            if (kind == 2) section.loads.push_back({ohms(dice.between(60, 600) / share)});
            if (kind == 3) section.loads.push_back({amperes(-dice.between(0.1, 0.6) * share)});
        }
        tree.sections.push_back(std::move(section));
    }
    return tree;
}

/// Every constant power times a factor, and a first one where there is none.
Tree with_powers(Tree tree, double factor) {
    bool any = false;
    for (NetworkSection& section : tree.sections)
        for (LoadLaw& load : section.loads)
            if (auto* power = std::get_if<Power>(&load)) {
                *power *= factor;
                any = true;
            }
    if (!any) tree.sections.back().loads.push_back({watts(10) * factor});
    return tree;
}

std::optional<NetworkAnswer> solve(const Tree& tree) {
    return solve_network(tree.source, tree.sections, tree.internal);
}

Current drawn_at(const NetworkSection& section, Voltage voltage) {
    Current sum{};
    for (const LoadLaw& load : section.loads) sum += current_at(load, voltage);
    return sum;
}

/// Ohm's law along every section, Kirchhoff's at every place, and the power that is given is drawn or lost.
void check_laws(const Tree& tree, const NetworkAnswer& answer) {
    REQUIRE(answer.far_end.size() == tree.sections.size());
    REQUIRE(answer.current.size() == tree.sections.size());
    // Rounding at a place is that of the largest current there.
    const Current rounding = amperes(1e-9);
    Current from_source{};
    std::vector<Current> leaving(tree.sections.size());
    for (std::size_t i = 0; i < tree.sections.size(); ++i) {
        const NetworkSection& section = tree.sections[i];
        const Voltage begins = section.from ? answer.far_end[*section.from] : answer.terminal;
        CHECK(begins - section.loop * answer.current[i] == near(answer.far_end[i], volts(1e-12 * 14.0)));
        CHECK(answer.far_end[i] > Voltage{});
        (section.from ? leaving[*section.from] : from_source) += answer.current[i];
    }
    CHECK(answer.source == near(from_source, rounding));
    CHECK(tree.source - tree.internal * answer.source == near(answer.terminal, volts(1e-12 * 14.0)));

    Power drawn_or_lost = tree.internal * answer.source * answer.source, gross{};
    for (std::size_t i = 0; i < tree.sections.size(); ++i) {
        const Current loads = drawn_at(tree.sections[i], answer.far_end[i]);
        CHECK(answer.current[i] == near(leaving[i] + loads, rounding));
        drawn_or_lost += answer.far_end[i] * loads + tree.sections[i].loop * answer.current[i] * answer.current[i];
        gross += abs(answer.far_end[i] * loads);
    }
    CHECK(tree.source * answer.source == near(drawn_or_lost, 1e-9 * (gross + watts(1))));
}

/// The textbook's plain sweeps in plain numbers: the currents of the voltages before, then the voltages of those currents.
std::vector<double> plain_sweeps(const Tree& tree) {
    const std::size_t count = tree.sections.size();
    std::vector<double> voltages(count, in_volts(tree.source)), currents(count);
    for (int sweep = 0; sweep < 2000; ++sweep) {
        double source_current = 0.0;
        for (std::size_t i = 0; i < count; ++i) {
            currents[i] = 0.0;
            for (const LoadLaw& load : tree.sections[i].loads) {
                if (const auto* power = std::get_if<Power>(&load)) currents[i] += in_watts(*power) / voltages[i];
                if (const auto* current = std::get_if<Current>(&load)) currents[i] += in_amperes(*current);
                if (const auto* ohm = std::get_if<Resistance>(&load)) currents[i] += voltages[i] / in_ohms(*ohm);
            }
        }
        for (std::size_t i = count; i-- > 0;) {
            const auto from = tree.sections[i].from;
            (from ? currents[*from] : source_current) += currents[i];
        }
        double moved = 0.0;
        const double terminal = in_volts(tree.source) - in_ohms(tree.internal) * source_current;
        for (std::size_t i = 0; i < count; ++i) {
            const auto from = tree.sections[i].from;
            const double voltage = (from ? voltages[*from] : terminal) - in_ohms(tree.sections[i].loop) * currents[i];
            moved = std::max(moved, std::abs(voltage - voltages[i]));
            voltages[i] = voltage;
        }
        if (moved < 1e-14) break;
    }
    return voltages;
}

/// The greatest factor on the constant powers with which the tree has an answer, to the last digit.
double edge(const Tree& tree) {
    double holds = 0.0, fails = 1.0;
    while (solve(with_powers(tree, fails))) fails *= 2.0;
    for (int i = 0; i < 200; ++i) {
        const double middle = 0.5 * (holds + fails);
        (solve(with_powers(tree, middle)) ? holds : fails) = middle;
    }
    return holds;
}

}  // namespace

TEST_CASE("a network obeys Ohm, Kirchhoff and the balance of power") {
    for (int seed = 0; seed < trees; ++seed) {
        CAPTURE(seed);
        for (const Feeding feeding : {Feeding::none, Feeding::some}) {
            const Tree tree = random_tree(seed, feeding);
            const auto answer = solve(tree);
            REQUIRE(answer);
            check_laws(tree, *answer);
        }
    }
}

TEST_CASE("a network agrees with the textbook's plain sweeps where those settle") {
    for (int seed = 0; seed < trees; ++seed) {
        CAPTURE(seed);
        const Tree tree = random_tree(seed, seed % 2 == 0 ? Feeding::none : Feeding::some);
        const auto answer = solve(tree);
        REQUIRE(answer);
        const std::vector<double> plain = plain_sweeps(tree);
        for (std::size_t i = 0; i < plain.size(); ++i)
            CHECK(answer->far_end[i] == near(volts(plain[i]), volts(1e-12 * plain[i])));
    }
}

TEST_CASE("one load more never lowers the source's current and never raises a voltage") {
    for (int seed = 0; seed < trees; ++seed) {
        CAPTURE(seed);
        const Tree tree = random_tree(seed);
        const auto before = solve(tree);
        REQUIRE(before);
        Dice dice(seed + 1000);
        for (const LoadLaw& load :
             {LoadLaw{watts(dice.between(0.01, 5))}, LoadLaw{amperes(dice.between(0.001, 0.5))},
              LoadLaw{ohms(dice.between(20, 2000))}}) {
            Tree more = tree;
            more.sections[dice.below(tree.sections.size())].loads.push_back(load);
            const auto after = solve(more);
            REQUIRE(after);
            CHECK(after->source > before->source);
            for (std::size_t i = 0; i < tree.sections.size(); ++i)
                CHECK(after->far_end[i] <= before->far_end[i] + volts(1e-13));
        }
    }
}

TEST_CASE("the order in which sections and loads are written changes nothing") {
    for (int seed = 0; seed < trees; ++seed) {
        CAPTURE(seed);
        const Tree tree = random_tree(seed, Feeding::some);
        const std::size_t count = tree.sections.size();
        // Another order with parents before children: again and again one of those whose parent is placed.
        Dice dice(seed + 2000);
        std::vector<std::size_t> place(count, count);
        Tree other{tree.source, tree.internal, {}};
        while (other.sections.size() < count) {
            const std::size_t i = dice.below(count);
            const auto from = tree.sections[i].from;
            if (place[i] < count || (from && place[*from] == count)) continue;
            place[i] = other.sections.size();
            NetworkSection section = tree.sections[i];
            if (from) section.from = place[*from];
            section.loads.assign(tree.sections[i].loads.rbegin(), tree.sections[i].loads.rend());
            other.sections.push_back(std::move(section));
        }
        const auto one = solve(tree), two = solve(other);
        REQUIRE(one);
        REQUIRE(two);
        CHECK(one->source == near(two->source, amperes(1e-10)));
        for (std::size_t i = 0; i < count; ++i)
            CHECK(one->far_end[i] == near(two->far_end[place[i]], volts(1e-12 * 14.0)));
    }
}

TEST_CASE("the source's own resistance is a section before all others") {
    for (int seed = 0; seed < trees; ++seed) {
        CAPTURE(seed);
        const Tree tree = random_tree(seed);
        std::vector<NetworkSection> longer{{{}, tree.internal, {}}};
        for (NetworkSection section : tree.sections) {
            section.from = section.from ? *section.from + 1 : 0;
            longer.push_back(std::move(section));
        }
        const auto within = solve(tree);
        const auto apart = solve_network(tree.source, longer);
        REQUIRE(within);
        REQUIRE(apart);
        CHECK(apart->far_end[0] == near(within->terminal, volts(1e-12 * 14.0)));
        CHECK(apart->far_end.back() == near(within->far_end.back(), volts(1e-12 * 14.0)));
    }
}

// All that is not constant power is linear, so one converter anywhere sees a source V behind R: its closed form
// V/2·(1 + √(1 − p)) at a share p of V²/(4R), and nothing above that.
TEST_CASE("one converter on a tree has the closed form of two places, up to what can be delivered and no further") {
    int limited = 0;
    for (int seed = 0; seed < trees; ++seed) {
        CAPTURE(seed);
        Tree tree = random_tree(seed, Feeding::some);
        for (NetworkSection& section : tree.sections)
            std::erase_if(section.loads, [](const LoadLaw& load) { return load.index() == 0; });
        const std::size_t at = Dice(seed + 3000).below(tree.sections.size());
        const auto with = [&](const LoadLaw& load) {
            Tree more = tree;
            more.sections[at].loads.push_back(load);
            return solve(more);
        };
        const Voltage open = with({amperes(0)})->far_end[at];
        // Fed in, and much of it, so that the difference of two voltages keeps its digits.
        const Current probe = amperes(1e4);
        const Resistance behind = (with({-probe})->far_end[at] - open) / probe;
        if (!(behind > milliohms(0.1))) continue;  // no cable: no limit
        ++limited;
        const Power most = open * open / (4.0 * behind);
        for (const double share : {0.01, 0.5, 0.99, 0.9999}) {
            CAPTURE(share);
            const auto answer = with({share * most});
            REQUIRE(answer);
            const double root = std::sqrt(1.0 - share);
            // What rounding leaves in V and R weighs 1/root.
            CHECK(answer->far_end[at] == near(0.5 * open * (1.0 + root), volts(2e-12 / root)));
        }
        CHECK_FALSE(with({1.000001 * most}));
        CHECK_FALSE(with({1.1 * most}));
        CHECK_FALSE(with({10.0 * most}));
    }
    CHECK(limited > trees * 9 / 10);
}

// At the greatest power that can be delivered two solutions meet, so the volts fall towards it as the square root of what
// is left: from 9 to 4 to 1 parts in a million the steps are equal. Were the answer given up too early the volts would
// fall evenly, 5 to 3; too late, they would jump.
TEST_CASE("a network is without an answer exactly from where the volts give way") {
    for (int seed = 0; seed < trees; ++seed) {
        CAPTURE(seed);
        const Tree tree = random_tree(seed);
        const double most = edge(tree);
        REQUIRE(most > 1.0);
        const auto lowest = [&](double left) {
            const Tree loaded = with_powers(tree, most * (1.0 - left));
            const auto answer = solve(loaded);
            REQUIRE(answer);
            check_laws(loaded, *answer);
            return *std::min_element(answer->far_end.begin(), answer->far_end.end());
        };
        const Voltage nine = lowest(9e-6), four = lowest(4e-6), one = lowest(1e-6);
        CHECK(double((nine - four) / (four - one)) == near(1.0, 0.02));
        for (const double beyond : {1.0000001, 1.001, 1.5, 30.0}) CHECK_FALSE(solve(with_powers(tree, most * beyond)));
    }
}

TEST_CASE("more power on the upper solution always means fewer volts, up to 99.99 % of what can be delivered") {
    for (int seed = 0; seed < trees; seed += 10) {
        CAPTURE(seed);
        const Tree tree = random_tree(seed);
        const double most = edge(tree);
        std::vector<Voltage> before(tree.sections.size(), tree.source);
        for (const double share : {0.0, 0.1, 0.3, 0.5, 0.7, 0.9, 0.97, 0.99, 0.999, 0.9999}) {
            CAPTURE(share);
            const auto answer = solve(with_powers(tree, most * share));
            REQUIRE(answer);
            CHECK(answer->sweeps <= 20);
            for (std::size_t i = 0; i < before.size(); ++i) CHECK(answer->far_end[i] <= before[i] + volts(1e-13));
            before = answer->far_end;
        }
    }
}

TEST_CASE("what a network cannot be is refused, what cannot be fed has no answer") {
    const auto one = [](std::optional<std::size_t> from, Resistance loop, LoadLaw load) {
        const NetworkSection section{from, loop, {load}};
        return solve_network(volts(12), {&section, 1});
    };
    CHECK_THROWS_AS(one(0, ohms(0.1), {watts(1)}), std::logic_error);
    CHECK_THROWS_AS(one({}, ohms(-0.1), {watts(1)}), std::logic_error);
    CHECK_THROWS_AS(one({}, ohms(std::nan("")), {watts(1)}), std::logic_error);
    CHECK_THROWS_AS(one({}, ohms(0.1), {watts(-1)}), std::logic_error);
    CHECK_THROWS_AS(one({}, ohms(0.1), {watts(HUGE_VAL)}), std::logic_error);
    CHECK_THROWS_AS(one({}, ohms(0.1), {ohms(0)}), std::logic_error);
    CHECK_THROWS_AS(one({}, ohms(0.1), {amperes(std::nan(""))}), std::logic_error);
    CHECK_THROWS_AS(solve_network(volts(12), {}, ohms(-1)), std::logic_error);
    CHECK_FALSE(solve_network(volts(0), {}));
    // A constant current that the cable cannot carry would end below zero.
    CHECK(one({}, ohms(0.1), {amperes(119)}));
    CHECK_FALSE(one({}, ohms(0.1), {amperes(121)}));
    // Large and small numbers: an answer or none, never a voltage that is no number.
    for (const double size : {1e-300, 1e-30, 1e-9, 1.0, 1e9, 1e30, 1e300})
        for (const double loop : {0.0, 1e-300, 1e-9, 1.0, 1e9, 1e300})
            for (const LoadLaw& load : {LoadLaw{watts(size)}, LoadLaw{amperes(size)},
                                            LoadLaw{amperes(-size)}, LoadLaw{ohms(size)}}) {
                CAPTURE(size);
                CAPTURE(loop);
                CAPTURE(load.index());
                const auto answer = one({}, ohms(loop), load);
                if (!answer) continue;
                CHECK(answer->far_end[0] > Voltage{});
                CHECK(std::isfinite(in_volts(answer->far_end[0])));
            }
}

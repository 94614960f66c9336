#include "voltwright/sizing/least_copper.hpp"

#include <algorithm>
#include <cmath>
#include <compare>
#include <cstdint>
#include <limits>
#include <stdexcept>
#include <utility>

namespace voltwright {

namespace {

/// Whole numbers add up to the same in any order.
using Picovolts = std::int64_t;
using CostUnits = std::int64_t;

/// More than any way can lose.
constexpr Picovolts unlimited = 2'000'000'000'000'000'000;

Picovolts in_picovolts(Voltage voltage) { return std::llround(in_volts(voltage) * 1e12); }
Voltage from_picovolts(Picovolts count) { return volts(static_cast<double>(count) * 1e-12); }

Picovolts limit_of(const FedRun& run) {
    if (!run.limit || *run.limit >= volts(1e6)) return unlimited;
    return in_picovolts(std::max(*run.limit, volts(-1.0)));
}

struct Offer {
    CostUnits cost;
    Picovolts lost;
};

/// What is weighed, the first thing first.
struct Price {
    CostUnits cost = 0;
    Picovolts lost = 0;  ///< in all runs together
    friend auto operator<=>(const Price&, const Price&) = default;
    friend Price operator+(const Price& a, const Price& b) { return {a.cost + b.cost, a.lost + b.lost}; }
};

/// As long as no more than `reach` is lost before it, it can be had for this price.
struct Step {
    Picovolts reach;
    Price price;
};

/// The least price against the volts lost before: falling reach, falling price.
using Steps = std::vector<Step>;

/// The cost of mixtures against the volts lost before is convex. From its reach downwards: what a volt less saves.
struct Slope {
    Picovolts width;
    double saving;
    bool own;  ///< in the run itself, not behind it
};

struct Mixture {
    Picovolts reach = unlimited;
    std::vector<Slope> slopes;  ///< falling savings
};

/// No step lies below `base + slope · reach`.
struct Line {
    double base = 0.0;
    double slope = 0.0;
    [[nodiscard]] double above(const Step& step) const {
        return static_cast<double>(step.price.cost) - base - slope * static_cast<double>(step.reach);
    }
};

struct Node {
    std::vector<Offer> offers;
    std::vector<std::size_t> hull;  ///< offers from the least loss to the least cost, mixtures of which are best
    Picovolts limit = unlimited;
    std::vector<std::size_t> feeds;

    Picovolts least_before = 0, most_before = 0;  ///< lost before it, at least and at most
    Mixture mixture, mixture_behind;
    double multiplier = 0.0;  ///< of its own limit
    Line line, line_behind;
    std::size_t source = 0;  ///< the run at the beginning of the way to it
    double gap = 0.0;        ///< how far above its line a step may lie
    Steps steps, steps_behind;

    Picovolts least_lost = 0, most_lost = 0;  ///< in it
};

// ---- reading the question -------------------------------------------------------------------------------------------

void check_offers(const std::vector<FedRun>& runs) {
    double all = 0.0;
    for (const FedRun& run : runs) {
        double most = 0.0;
        for (const SizeOffer& offer : run.offers) {
            const double lost = in_volts(offer.lost);
            if (!std::isfinite(offer.cost) || offer.cost < 0.0) throw std::logic_error("a size without a proper cost");
            if (!std::isfinite(lost) || lost < 0.0) throw std::logic_error("a size without a proper loss");
            most = std::max(most, lost);
        }
        if (run.limit && std::isnan(in_volts(*run.limit))) throw std::logic_error("a limit that is not a number");
        all += most;
    }
    if (all >= 1e6) throw std::logic_error("more volts lost than can be counted");
}

/// Every run after the one that feeds it.
std::vector<std::size_t> from_the_sources(const std::vector<FedRun>& runs) {
    std::vector<std::vector<std::size_t>> feeds(runs.size());
    std::vector<std::size_t> order;
    order.reserve(runs.size());
    for (std::size_t i = 0; i < runs.size(); ++i) {
        if (!runs[i].fed_by)
            order.push_back(i);
        else if (*runs[i].fed_by < runs.size())
            feeds[*runs[i].fed_by].push_back(i);
        else
            throw std::logic_error("a run fed by one that is not there");
    }
    for (std::size_t done = 0; done < order.size(); ++done)
        order.insert(order.end(), feeds[order[done]].begin(), feeds[order[done]].end());
    if (order.size() != runs.size()) throw std::logic_error("runs that feed one another in a circle");
    return order;
}

/// How many of the units in which costs are counted go into a cost of one: a power of ten.
double units_in_one(const std::vector<FedRun>& runs) {
    double all = 0.0;
    for (const FedRun& run : runs) {
        double most = 0.0;
        for (const SizeOffer& offer : run.offers) most = std::max(most, offer.cost);
        all += most;
    }
    if (!std::isfinite(all)) throw std::logic_error("costs that add up to more than can be counted");
    if (all == 0.0) return 1.0;
    return std::pow(10.0, std::clamp(14.0 - std::floor(std::log10(all)), -300.0, 300.0));
}

/// The lower left hull of a run's offers.
std::vector<std::size_t> hull_of(const std::vector<Offer>& offers) {
    std::vector<std::size_t> sorted(offers.size());
    for (std::size_t i = 0; i < sorted.size(); ++i) sorted[i] = i;
    std::sort(sorted.begin(), sorted.end(), [&](std::size_t a, std::size_t b) {
        return std::pair(offers[a].lost, offers[a].cost) < std::pair(offers[b].lost, offers[b].cost);
    });
    const auto saving = [&](std::size_t from, std::size_t to) {
        return static_cast<double>(offers[from].cost - offers[to].cost) /
               static_cast<double>(offers[to].lost - offers[from].lost);
    };
    std::vector<std::size_t> hull;
    for (const std::size_t i : sorted) {
        if (!hull.empty() && offers[i].cost >= offers[hull.back()].cost) continue;
        while (hull.size() > 1 && saving(hull[hull.size() - 2], hull.back()) <= saving(hull.back(), i)) hull.pop_back();
        hull.push_back(i);
    }
    return hull;
}

std::vector<Node> nodes_of(const std::vector<FedRun>& runs, const std::vector<std::size_t>& order) {
    const double units = units_in_one(runs);
    std::vector<Node> nodes(runs.size());
    for (const std::size_t i : order) {
        Node& node = nodes[i];
        node.offers.reserve(runs[i].offers.size());
        for (const SizeOffer& offer : runs[i].offers)
            node.offers.push_back({std::llround(offer.cost * units), in_picovolts(offer.lost)});
        const auto [least, most] = std::minmax_element(node.offers.begin(), node.offers.end(),
                                                       [](const Offer& a, const Offer& b) { return a.lost < b.lost; });
        node.least_lost = least->lost;
        node.most_lost = most->lost;
        node.hull = hull_of(node.offers);
        node.limit = limit_of(runs[i]);
        node.source = i;
        if (!runs[i].fed_by) continue;
        Node& feeder = nodes[*runs[i].fed_by];
        node.source = feeder.source;
        feeder.feeds.push_back(i);
        node.least_before = feeder.least_before + feeder.least_lost;
        node.most_before = feeder.most_before + feeder.most_lost;
    }
    return nodes;
}

// ---- the bound ------------------------------------------------------------------------------------------------------

/// Both functions at the same volts, from the reach of the lesser.
Mixture sum(const Mixture& a, const Mixture& b) {
    Mixture both{.reach = std::min(a.reach, b.reach), .slopes = {}};
    struct Cursor {
        const std::vector<Slope>& slopes;
        Picovolts skipped;  ///< of the slopes from `at` on
        std::size_t at = 0;
        void settle() {
            while (at < slopes.size() && skipped >= slopes[at].width) skipped -= slopes[at++].width;
        }
        [[nodiscard]] bool ended() const { return at == slopes.size(); }
        [[nodiscard]] Picovolts left() const { return ended() ? unlimited : slopes[at].width - skipped; }
        [[nodiscard]] double saving() const { return ended() ? 0.0 : slopes[at].saving; }
    };
    Cursor of_a{a.slopes, a.reach - both.reach}, of_b{b.slopes, b.reach - both.reach};
    both.slopes.reserve(a.slopes.size() + b.slopes.size());
    for (;;) {
        of_a.settle();
        of_b.settle();
        if (of_a.ended() && of_b.ended()) return both;
        const Picovolts width = std::min(of_a.left(), of_b.left());
        both.slopes.push_back({width, of_a.saving() + of_b.saving(), false});
        of_a.skipped += width;
        of_b.skipped += width;
    }
}

void find_mixtures(std::vector<Node>& nodes, const std::vector<std::size_t>& order) {
    for (auto i = order.rbegin(); i != order.rend(); ++i) {
        Node& node = nodes[*i];
        Mixture& behind = node.mixture_behind;
        behind.reach = node.limit;
        for (const std::size_t fed : node.feeds) behind = sum(behind, nodes[fed].mixture);

        std::vector<Slope> own;
        for (std::size_t k = 1; k < node.hull.size(); ++k) {
            const Offer& thick = node.offers[node.hull[k - 1]];
            const Offer& thin = node.offers[node.hull[k]];
            const Picovolts width = thin.lost - thick.lost;
            own.push_back({width, static_cast<double>(thick.cost - thin.cost) / static_cast<double>(width), true});
        }
        node.mixture.reach = behind.reach - node.least_lost;
        node.mixture.slopes.resize(own.size() + behind.slopes.size());
        std::merge(own.begin(), own.end(), behind.slopes.begin(), behind.slopes.end(), node.mixture.slopes.begin(),
                   [](const Slope& a, const Slope& b) { return a.saving > b.saving; });
    }
}

/// What a volt more and a volt less would be worth where `before` volts are lost.
struct Worth {
    double less;
    double more;  ///< infinite at the reach: it cannot be had
};

Worth worth(const Mixture& mixture, Picovolts before) {
    Picovolts down = mixture.reach - before;
    double more = std::numeric_limits<double>::infinity();
    for (const Slope& slope : mixture.slopes) {
        if (down < slope.width) return {slope.saving, down == 0 ? more : slope.saving};
        down -= slope.width;
        more = slope.saving;
    }
    return {0.0, down == 0 ? more : 0.0};
}

/// Follows the best mixture from the sources, shares out the worth of a volt among the limits, and puts into `choice`
/// the offers next to the mixture on the side of fewer volts, which fit.
void share_out(std::vector<Node>& nodes, const std::vector<FedRun>& runs, const std::vector<std::size_t>& order,
               std::vector<std::size_t>& choice) {
    struct State {
        Picovolts before;
        double worth;
    };
    std::vector<State> states(nodes.size());
    for (const std::size_t i : order) {
        Node& node = nodes[i];
        if (!runs[i].fed_by) states[i] = {0, worth(node.mixture, 0).less};
        Picovolts down = node.mixture.reach - states[i].before;
        Picovolts own = 0;
        for (const Slope& slope : node.mixture.slopes) {
            const Picovolts part = std::min(down, slope.width);
            if (slope.own) own += part;
            down -= part;
        }
        const Picovolts least = node.least_lost;
        choice[i] = *std::prev(
            std::upper_bound(node.hull.begin(), node.hull.end(), least + own,
                             [&](Picovolts lost, std::size_t offer) { return lost < node.offers[offer].lost; }));

        const Picovolts after = states[i].before + least + own;
        double rest = states[i].worth;
        for (const std::size_t fed : node.feeds) {
            states[fed] = {after, worth(nodes[fed].mixture, after).less};
            rest -= states[fed].worth;
        }
        for (const std::size_t fed : node.feeds) {
            const Worth here = worth(nodes[fed].mixture, after);
            const double more = std::clamp(rest, 0.0, here.more - here.less);
            states[fed].worth += more;
            rest -= more;
        }
        if (node.limit < unlimited) node.multiplier = std::max(rest, 0.0);
    }
}

/// Any multipliers that are not negative give true lines; good ones give high lines.
void draw_lines(std::vector<Node>& nodes, const std::vector<std::size_t>& order) {
    for (auto i = order.rbegin(); i != order.rend(); ++i) {
        Node& node = nodes[*i];
        Line& behind = node.line_behind;
        behind = {-node.multiplier * static_cast<double>(node.limit), node.multiplier};
        for (const std::size_t fed : node.feeds) {
            behind.base += nodes[fed].line.base;
            behind.slope += nodes[fed].line.slope;
        }
        double least = std::numeric_limits<double>::infinity();
        for (const Offer& offer : node.offers)
            least = std::min(least, static_cast<double>(offer.cost) + behind.slope * static_cast<double>(offer.lost));
        node.line = {behind.base + least, behind.slope};
    }
}

/// The costs, source by source, of a choice of all runs.
std::vector<double> costs_by_source(const std::vector<Node>& nodes, const std::vector<std::size_t>& choice) {
    std::vector<CostUnits> costs(nodes.size());
    for (std::size_t i = 0; i < nodes.size(); ++i) costs[nodes[i].source] += nodes[i].offers[choice[i]].cost;
    return {costs.begin(), costs.end()};
}

// ---- the steps ------------------------------------------------------------------------------------------------------

Steps sum(const Steps& a, const Steps& b) {
    Steps both;
    if (a.empty() || b.empty()) return both;
    both.reserve(a.size() + b.size());
    Picovolts reach = std::min(a.front().reach, b.front().reach);
    for (std::size_t i = 0, j = 0;;) {
        while (i + 1 < a.size() && a[i + 1].reach >= reach) ++i;
        while (j + 1 < b.size() && b[j + 1].reach >= reach) ++j;
        both.push_back({reach, a[i].price + b[j].price});
        if (i + 1 == a.size() && j + 1 == b.size()) return both;
        if (i + 1 == a.size())
            reach = b[j + 1].reach;
        else if (j + 1 == b.size())
            reach = a[i + 1].reach;
        else
            reach = std::max(a[i + 1].reach, b[j + 1].reach);
    }
}

/// The cheapest way to have `before` volts lost before it; nullptr when there is none.
const Price* price_at(const Steps& steps, Picovolts before) {
    const auto beyond =
        std::partition_point(steps.begin(), steps.end(), [before](const Step& step) { return step.reach >= before; });
    return beyond == steps.begin() ? nullptr : &std::prev(beyond)->price;
}

void find_steps_behind(std::vector<Node>& nodes, Node& node) {
    Steps& steps = node.steps_behind;
    steps = {{node.limit, {}}};
    for (const std::size_t fed : node.feeds) steps = sum(steps, nodes[fed].steps);
    const Picovolts least = node.least_before + node.least_lost;
    std::erase_if(steps,
                  [&](const Step& step) { return step.reach < least || node.line_behind.above(step) > node.gap; });
}

void find_steps(Node& node) {
    node.steps.clear();
    Steps all;
    for (const Offer& offer : node.offers)
        for (const Step& behind : node.steps_behind) {
            const Picovolts reach = std::min(behind.reach - offer.lost, node.most_before);
            if (reach < node.least_before) break;
            const Step step{reach, behind.price + Price{offer.cost, offer.lost}};
            if (node.line.above(step) <= node.gap) all.push_back(step);
        }
    std::sort(all.begin(), all.end(),
              [](const Step& a, const Step& b) { return a.reach != b.reach ? a.reach > b.reach : a.price < b.price; });
    for (const Step& step : all)
        if (node.steps.empty() || step.price < node.steps.back().price) node.steps.push_back(step);
}

/// The best answer mostly lies far below the choice that is known to fit: only where it does not, steps higher above
/// their lines are looked at.
void find_all_steps(std::vector<Node>& nodes, const std::vector<std::size_t>& order,
                    const std::vector<std::size_t>& known) {
    const std::vector<double> costs = costs_by_source(nodes, known);
    // NOLINTNEXTLINE(clang-analyzer-security.FloatLoopCounter): powers of two, exact
    for (double share = 1.0 / 32.0; share <= 1.0; share *= 2.0) {
        for (auto i = order.rbegin(); i != order.rend(); ++i) {
            Node& node = nodes[*i];
            Node& source = nodes[node.source];
            if (!source.steps.empty()) continue;
            const double gap = share * (costs[node.source] - source.line.base);
            // What rounding does to the lines is far less than a thousand millionth.
            node.gap = gap + 1e-9 * costs[node.source] + 1.0;
            find_steps_behind(nodes, node);
            find_steps(node);
            // Nothing is lost before a source, so it has one step. Above the gap a better answer may have been dropped.
            const bool last = share == 1.0;
            if (&node == &source && !last && !node.steps.empty() && node.line.above(node.steps.front()) > gap)
                node.steps.clear();
        }
    }
}

/// From the sources: the earliest offer that has the least price where the run begins.
void follow(const std::vector<Node>& nodes, const std::vector<FedRun>& runs, const std::vector<std::size_t>& order,
            std::vector<std::size_t>& choice) {
    std::vector<Picovolts> after(nodes.size());
    for (const std::size_t i : order) {
        const Node& node = nodes[i];
        const Picovolts before = runs[i].fed_by ? after[*runs[i].fed_by] : 0;
        std::optional<Price> least;
        for (std::size_t k = 0; k < node.offers.size(); ++k) {
            const Offer& offer = node.offers[k];
            const Price* behind = price_at(node.steps_behind, before + offer.lost);
            if (!behind) continue;
            const Price price = *behind + Price{offer.cost, offer.lost};
            if (least && *least <= price) continue;
            least = price;
            choice[i] = k;
        }
        if (!least) throw std::logic_error("a choice lost on the way back");
        after[i] = before + node.offers[choice[i]].lost;
    }
}

bool any_without_offers(const std::vector<FedRun>& runs) {
    return std::any_of(runs.begin(), runs.end(), [](const FedRun& run) { return run.offers.empty(); });
}

}  // namespace

std::optional<std::vector<std::size_t>> least_copper(const std::vector<FedRun>& runs) {
    check_offers(runs);
    const std::vector<std::size_t> order = from_the_sources(runs);
    if (any_without_offers(runs)) return {};

    std::vector<Node> nodes = nodes_of(runs, order);
    find_mixtures(nodes, order);
    for (const std::size_t i : order)
        if (!runs[i].fed_by && nodes[i].mixture.reach < 0) return {};

    std::vector<std::size_t> choice(runs.size());
    share_out(nodes, runs, order, choice);
    draw_lines(nodes, order);
    find_all_steps(nodes, order, choice);
    follow(nodes, runs, order, choice);
    return choice;
}

std::vector<UnmetLimit> unmet_limits(const std::vector<FedRun>& runs) {
    check_offers(runs);
    std::vector<std::optional<Picovolts>> least(runs.size());
    for (const std::size_t i : from_the_sources(runs)) {
        const std::optional<Picovolts> before = runs[i].fed_by ? least[*runs[i].fed_by] : Picovolts{0};
        if (!before || runs[i].offers.empty()) continue;
        Picovolts own = unlimited;
        for (const SizeOffer& offer : runs[i].offers) own = std::min(own, in_picovolts(offer.lost));
        least[i] = *before + own;
    }
    std::vector<UnmetLimit> unmet;
    for (std::size_t i = 0; i < runs.size(); ++i)
        if (least[i] && *least[i] > limit_of(runs[i])) unmet.push_back({i, from_picovolts(*least[i]), *runs[i].limit});
    return unmet;
}

}  // namespace voltwright

#include "voltwright/sizing/least_cost_tree.hpp"

#include <algorithm>
#include <iterator>
#include <limits>

namespace voltwright::least_cost_tree {

namespace {

/// Both functions at the same volts, from the reach of the lesser.
Relaxation sum(const Relaxation& a, const Relaxation& b) {
    Relaxation both{.reach = std::min(a.reach, b.reach), .segments = {}};
    struct Cursor {
        const std::vector<Segment>& segments;
        Picovolts skipped;  ///< of the segments from `at` on
        std::size_t at = 0;
        void settle() {
            while (at < segments.size() && skipped >= segments[at].width) skipped -= segments[at++].width;
        }
        [[nodiscard]] bool ended() const { return at == segments.size(); }
        [[nodiscard]] Picovolts left() const { return ended() ? unlimited : segments[at].width - skipped; }
        [[nodiscard]] double saving() const { return ended() ? 0.0 : segments[at].saving; }
    };
    Cursor of_a{a.segments, a.reach - both.reach}, of_b{b.segments, b.reach - both.reach};
    both.segments.reserve(a.segments.size() + b.segments.size());
    for (;;) {
        of_a.settle();
        of_b.settle();
        if (of_a.ended() && of_b.ended()) return both;
        const Picovolts width = std::min(of_a.left(), of_b.left());
        both.segments.push_back({width, of_a.saving() + of_b.saving(), false});
        of_a.skipped += width;
        of_b.skipped += width;
    }
}

/// The shadow price of a volt at an upstream drop: from the side of less drop and from that of more.
struct ShadowPrice {
    double less;
    double more;  ///< infinite at the reach: no more can be allowed
};

ShadowPrice shadow_price(const Relaxation& relaxed, Picovolts before) {
    Picovolts down = relaxed.reach - before;
    double more = std::numeric_limits<double>::infinity();
    for (const Segment& slope : relaxed.segments) {
        if (down < slope.width) return {slope.saving, down == 0 ? more : slope.saving};
        down -= slope.width;
        more = slope.saving;
    }
    return {0.0, down == 0 ? more : 0.0};
}

}  // namespace

void solve_relaxation(std::vector<Node>& nodes, const std::vector<std::size_t>& order) {
    for (auto i = order.rbegin(); i != order.rend(); ++i) {
        Node& node = nodes[*i];
        Relaxation& behind = node.relaxed_behind;
        behind.reach = node.limit;
        for (const std::size_t fed : node.feeds) behind = sum(behind, nodes[fed].relaxed);

        std::vector<Segment> own;
        for (std::size_t k = 1; k < node.hull.size(); ++k) {
            const Option& thick = node.options[node.hull[k - 1]];
            const Option& thin = node.options[node.hull[k]];
            const Picovolts width = thin.lost - thick.lost;
            own.push_back({width, static_cast<double>(thick.cost - thin.cost) / static_cast<double>(width), true});
        }
        node.relaxed.reach = behind.reach - node.least_lost;
        node.relaxed.segments.resize(own.size() + behind.segments.size());
        std::merge(own.begin(), own.end(), behind.segments.begin(), behind.segments.end(),
                   node.relaxed.segments.begin(),
                   [](const Segment& a, const Segment& b) { return a.saving > b.saving; });
    }
}

std::vector<std::size_t> round_relaxation(std::vector<Node>& nodes, const std::vector<FedRun>& runs,
                                          const std::vector<std::size_t>& order) {
    std::vector<std::size_t> choice(nodes.size());
    struct State {
        Picovolts before;
        double shadow_price;
    };
    std::vector<State> states(nodes.size());
    for (const std::size_t i : order) {
        Node& node = nodes[i];
        if (!runs[i].fed_by) states[i] = {0, shadow_price(node.relaxed, 0).less};
        Picovolts down = node.relaxed.reach - states[i].before;
        Picovolts own = 0;
        for (const Segment& slope : node.relaxed.segments) {
            const Picovolts part = std::min(down, slope.width);
            if (slope.own) own += part;
            down -= part;
        }
        const Picovolts least = node.least_lost;
        choice[i] = *std::prev(
            std::upper_bound(node.hull.begin(), node.hull.end(), least + own,
                             [&](Picovolts lost, std::size_t option) { return lost < node.options[option].lost; }));

        const Picovolts after = states[i].before + least + own;
        double rest = states[i].shadow_price;
        for (const std::size_t fed : node.feeds) {
            states[fed] = {after, shadow_price(nodes[fed].relaxed, after).less};
            rest -= states[fed].shadow_price;
        }
        for (const std::size_t fed : node.feeds) {
            const ShadowPrice here = shadow_price(nodes[fed].relaxed, after);
            const double more = std::clamp(rest, 0.0, here.more - here.less);
            states[fed].shadow_price += more;
            rest -= more;
        }
        if (node.limit < unlimited) node.multiplier = std::max(rest, 0.0);
    }
    return choice;
}

void find_lower_bounds(std::vector<Node>& nodes, const std::vector<std::size_t>& order) {
    for (auto i = order.rbegin(); i != order.rend(); ++i) {
        Node& node = nodes[*i];
        LowerBound& behind = node.bound_behind;
        behind = {-node.multiplier * static_cast<double>(node.limit), node.multiplier};
        for (const std::size_t fed : node.feeds) {
            behind.base += nodes[fed].bound.base;
            behind.slope += nodes[fed].bound.slope;
        }
        double least = std::numeric_limits<double>::infinity();
        for (const Option& option : node.options)
            least = std::min(least, static_cast<double>(option.cost) + behind.slope * static_cast<double>(option.lost));
        node.bound = {behind.base + least, behind.slope};
    }
}

}  // namespace voltwright::least_cost_tree

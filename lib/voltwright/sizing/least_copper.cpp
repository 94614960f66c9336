#include "voltwright/sizing/least_copper.hpp"

#include <algorithm>
#include <limits>
#include <stdexcept>

namespace voltwright {

namespace {

/// What a run and all behind it cost while no more than this is lost before it.
struct Step {
    Voltage up_to;
    double cost;
    std::size_t size;  ///< that the run takes then
};
/// Rising in volts and in cost.
using Steps = std::vector<Step>;

constexpr Voltage without_limit = volts(1e9);
/// Volts closer than this are the same: sums of volts are rounded.
constexpr Voltage same = volts(1e-12);

/// Drops the steps that another one beats: no dearer, and good for as much.
void keep_best(Steps& steps) {
    std::sort(steps.begin(), steps.end(), [](const Step& a, const Step& b) {
        if (a.up_to != b.up_to) return a.up_to > b.up_to;
        return a.cost < b.cost || (a.cost == b.cost && a.size > b.size);
    });
    double least = std::numeric_limits<double>::infinity();
    Steps best;
    for (const Step& step : steps) {
        // The other way round it is dearer, and good for less.
        if (!(step.cost < least)) continue;
        least = step.cost;
        best.push_back(step);
    }
    std::reverse(best.begin(), best.end());
    steps = std::move(best);
}

/// The step that holds where so much is lost already: the cheapest; nullptr when it is too much for all.
const Step* step_at(const Steps& steps, Voltage lost) {
    const auto found = std::lower_bound(steps.begin(), steps.end(), lost - same,
                                        [](const Step& step, Voltage volts) { return step.up_to < volts; });
    return found == steps.end() ? nullptr : &*found;
}

class Forest {
public:
    explicit Forest(std::span<const CopperRun> runs) : runs_(runs), steps_(runs.size()), behind_(runs.size()) {
        for (std::size_t i = 0; i < runs.size(); ++i) {
            const auto parent = runs[i].parent;
            if (parent && *parent >= i) throw std::logic_error("a run stands before the one that it goes on from");
            if (runs[i].sizes.empty()) throw std::logic_error("a run needs a size");
            if (parent) behind_[*parent].push_back(i);
        }
    }

    std::optional<std::vector<std::size_t>> choose() {
        for (std::size_t i = runs_.size(); i-- > 0;) steps_[i] = steps_of(i);
        std::vector<std::size_t> sizes(runs_.size());
        std::vector<Voltage> lost(runs_.size());
        for (std::size_t i = 0; i < runs_.size(); ++i) {
            const Voltage before = runs_[i].parent ? lost[*runs_[i].parent] : Voltage{};
            const Step* step = step_at(steps_[i], before);
            if (!step) return {};
            sizes[i] = step->size;
            lost[i] = before + runs_[i].sizes[step->size].lost;
        }
        return sizes;
    }

private:
    /// f of a run.
    [[nodiscard]] Steps steps_of(std::size_t i) const {
        const CopperRun& run = runs_[i];
        const Voltage limit = run.limit.value_or(without_limit);
        const Steps behind = sum_behind(i);
        Steps steps;
        steps.reserve(run.sizes.size() * behind.size());
        for (std::size_t k = 0; k < run.sizes.size(); ++k) {
            const auto [cost, lost] = run.sizes[k];
            for (const Step& step : behind) {
                const Voltage up_to = std::min<Voltage>(step.up_to, limit) - lost;
                if (up_to < -same) continue;
                steps.push_back({up_to, cost + step.cost, k});
                // What follows is dearer, and good for no more.
                if (step.up_to >= limit) break;
            }
        }
        keep_best(steps);
        return steps;
    }

    /// F: the sum over all runs that go on from its end.
    [[nodiscard]] Steps sum_behind(std::size_t i) const {
        struct Change {
            Voltage at;
            double dearer;
        };
        std::vector<Change> changes;
        Voltage end = without_limit;
        double cost = 0.0;
        for (const std::size_t child : behind_[i]) {
            const Steps& steps = steps_[child];
            if (steps.empty()) return {};
            cost += steps.front().cost;
            end = std::min<Voltage>(end, steps.back().up_to);
            for (std::size_t k = 0; k + 1 < steps.size(); ++k)
                changes.push_back({steps[k].up_to, steps[k + 1].cost - steps[k].cost});
        }
        std::sort(changes.begin(), changes.end(), [](const Change& a, const Change& b) { return a.at < b.at; });
        Steps sum;
        sum.reserve(changes.size() + 1);
        for (const Change& change : changes) {
            if (!(change.at < end)) break;
            sum.push_back({change.at, cost, 0});
            cost += change.dearer;
        }
        sum.push_back({end, cost, 0});
        return sum;
    }

    std::span<const CopperRun> runs_;
    std::vector<Steps> steps_;
    std::vector<std::vector<std::size_t>> behind_;
};

}  // namespace

std::optional<std::vector<std::size_t>> least_copper(std::span<const CopperRun> runs) { return Forest(runs).choose(); }

}  // namespace voltwright

#include "voltwright/planning/cables.hpp"

#include "voltwright/sizing/least_copper.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace voltwright {

namespace {

/// Rounds after which what one fuse asks of another run's cable has settled, or never does.
constexpr int most_rounds = 6;

/// What a load draws at the least voltage that its limit leaves it; a trunk's current is such a sum already.
Current counted_current(const SystemRun& task) {
    const Voltage normal = task.supply.normal;
    return most_current(law_of(task.load), normal - *task.supply.drop_limit * nominal_voltage, normal);
}

class Chooser {
public:
    Chooser(const System& system, const Tables& tables, Ladder ladder, const Objective* objective)
        : system_(system), tables_(tables), ladder_(objective ? Ladder::whole : ladder), objective_(objective) {
        runs_.reserve(system.runs.size());
        for (const SystemRun& task : system.runs) runs_.emplace_back(RunPlan{task, {}, {}});
        link();
    }

    /// As if all that is to be bought were of this class.
    void buy(Temperature insulation, const std::vector<RunPlan>& chosen) {
        for (std::size_t i = 0; i < runs_.size(); ++i) {
            CableRun& run = runs_[i].task.run;
            if (run.have_cable || run.insulation <= insulation) continue;
            run.insulation = insulation;
            run.insulation_material.clear();
            const Candidate* before = chosen[i].to_lay();
            if (!shares_[i] && !objective_ && !run.given && before) run.at_least = before->area;
        }
    }

    std::vector<RunPlan> choose(bool ways) && {
        std::vector<std::size_t> to_judge = order_;
        for (int round = 0; round < most_rounds && !to_judge.empty(); ++round) {
            for (const std::size_t i : to_judge) judge(i);
            choose_together();
            to_judge = see_what_lies_before();
        }
        // What has not settled by then is judged as it stands, so that what it fails is told.
        for (const std::size_t i : to_judge) judge_as_taken(i);
        if (ways) note_ways();
        return std::move(runs_);
    }

private:
    // ---- who hangs on whom -------------------------------------------------------------------------------------------

    void link() {
        parent_.resize(runs_.size());
        shares_.resize(runs_.size(), false);
        for (std::size_t i = 0; i < runs_.size(); ++i)
            if (const RunPlan* before = trunk_before(runs_[i], runs_)) {
                parent_[i] = static_cast<std::size_t>(before - runs_.data());
                shares_[i] = shares_[*parent_[i]] = true;
            }
        for (std::size_t i = 0; i < runs_.size(); ++i) visit(i);
    }

    /// Parents first.
    void visit(std::size_t run) {
        if (std::find(order_.begin(), order_.end(), run) != order_.end()) return;
        if (parent_[run]) visit(*parent_[run]);
        order_.push_back(run);
    }

    // ---- one by one --------------------------------------------------------------------------------------------------

    void judge(std::size_t i) {
        RunPlan& run = runs_[i];
        if (!run.sized()) return;
        run.choice = choose_cable(run.task.run, run.task.load, run.task.supply, system_.rules, tables_,
                                  shares_[i] ? Ladder::whole : ladder_);
        if (!objective_ || run.choice.given) return;
        run.costs.clear();
        for (const Candidate& candidate : run.choice.ladder)
            run.costs.push_back(objective_->cost(system_, run.task, candidate, tables_));
        if (shares_[i]) return;
        const std::vector<std::size_t> sizes = for_sale(run);
        run.for_money = !sizes.empty();
        if (sizes.empty()) return;
        // The last of those that cost the same: the thicker.
        take(run, *std::min_element(sizes.rbegin(), sizes.rend(),
                                    [&](std::size_t a, std::size_t b) { return *run.costs[a] < *run.costs[b]; }));
    }

    void judge_as_taken(std::size_t i) {
        RunPlan& run = runs_[i];
        if (!run.sized() || !run.taken()) return;
        const Gauge size = run.taken()->size;
        run.choice = choose_cable(run.task.run, run.task.load, run.task.supply, system_.rules, tables_, Ladder::whole);
        const auto same = std::find_if(run.choice.ladder.begin(), run.choice.ladder.end(),
                                       [&](const Candidate& one) { return one.size == size; });
        run.choice.taken = static_cast<std::size_t>(same - run.choice.ladder.begin());
    }

    /// Sets what lies before each run, and returns the runs for which that is not what it was.
    std::vector<std::size_t> see_what_lies_before() {
        std::vector<std::size_t> changed;
        for (const std::size_t i : order_) {
            if (!parent_[i]) continue;
            const RunPlan& before = runs_[*parent_[i]];
            Upstream now = before.task.run.upstream;
            if (const Candidate* taken = before.taken()) {
                now.cold += taken->cold_loop;
                now.hot += taken->hot_loop;
            }
            Upstream& known = runs_[i].task.run.upstream;
            if (now.cold == known.cold && now.hot == known.hot) continue;
            known = now;
            changed.push_back(i);
        }
        return changed;
    }

    // ---- together ----------------------------------------------------------------------------------------------------

    /// The sizes of a run that pass all but what it shares, as indices of its ladder; a given one alone.
    [[nodiscard]] std::vector<std::size_t> usable(const RunPlan& run) const {
        std::vector<std::size_t> sizes;
        for (std::size_t k = 0; k < run.choice.ladder.size(); ++k) {
            const Candidate& candidate = run.choice.ladder[k];
            // A trunk stays what it is for the choice of its branches, even where no size of it fits.
            const bool alone = run.choice.given || (run.task.role == RunRole::trunk && run.choice.nothing_fits());
            const bool wanted = alone ? run.choice.taken == k : candidate.fits();
            if (wanted && candidate.drop) sizes.push_back(k);
        }
        return sizes;
    }

    /// Those of them that have a price; none where one of them is priced by a row for any size.
    [[nodiscard]] std::vector<std::size_t> for_sale(const RunPlan& run) const {
        std::vector<std::size_t> sizes = usable(run);
        if (std::any_of(sizes.begin(), sizes.end(),
                        [&](std::size_t k) { return objective_->any_size_alike(run.task, run.choice.ladder[k].size); }))
            return {};
        std::erase_if(sizes, [&](std::size_t k) { return !run.costs[k]; });
        return sizes;
    }

    [[nodiscard]] static Voltage lost_in(const RunPlan& run, const Candidate& candidate) {
        return counted_current(run.task) * candidate.drop->resistance.loop;
    }

    /// Copper out and back.
    [[nodiscard]] double copper_of(const RunPlan& run, const Candidate& candidate) const {
        double areas = in_square_millimetres(candidate.area);
        if (!run.task.run.body) {
            const auto& back = run.task.run.return_size;
            areas += in_square_millimetres(back ? conductor_of(tables_, *back)->area : candidate.area);
        }
        return areas * in_metres(*run.task.run.length);
    }

    /// Tree by tree, for the least copper; with prices for the least money where there is a choice of it.
    void choose_together() {
        for (const std::size_t root : order_) {
            if (!shares_[root] || parent_[root]) continue;
            std::vector<std::size_t> tree;
            std::copy_if(order_.begin(), order_.end(), std::back_inserter(tree),
                         [&](std::size_t i) { return root_of(i) == root; });
            if (!objective_ || !choose_together(tree, true)) choose_together(tree, false);
        }
    }

    /// Takes a size for each of these runs that shares a way. With `for_money` false where some have no price or the ones
    /// that have keep no limit: then nothing was taken.
    bool choose_together(const std::vector<std::size_t>& runs, bool for_money) {
        std::vector<std::size_t> members;
        std::vector<std::vector<std::size_t>> sizes;
        std::vector<FedRun> problem;
        std::vector<std::optional<std::size_t>> place(runs_.size());
        for (const std::size_t i : runs) {
            const RunPlan& run = runs_[i];
            if (!shares_[i] || !run.sized()) continue;
            const bool to_buy = for_money && !run.choice.given;
            std::vector<std::size_t> here = to_buy ? for_sale(run) : usable(run);
            if (here.empty()) {
                // A branch without a size is said of that branch, and the others are chosen all the same.
                if (run.task.role != RunRole::trunk && usable(run).empty()) continue;
                return false;
            }
            sizes.push_back(std::move(here));
            FedRun one{};
            if (parent_[i]) one.fed_by = place[*parent_[i]];
            for (const std::size_t k : sizes.back()) {
                const Candidate& candidate = run.choice.ladder[k];
                const double cost = to_buy      ? static_cast<double>(run.costs[k]->ten_thousandths)
                                    : for_money ? 0.0
                                                : copper_of(run, candidate);
                one.offers.push_back({cost, lost_in(run, candidate)});
            }
            if (run.task.role != RunRole::trunk) one.limit = limit_of(run.task);
            place[i] = members.size();
            members.push_back(i);
            problem.push_back(std::move(one));
        }
        if (members.empty()) return true;
        auto found = least_copper(problem);
        if (for_money && !found) return false;
        if (!found) found = least_copper(without_hopeless(problem));
        for (std::size_t m = 0; m < members.size(); ++m) {
            RunPlan& run = runs_[members[m]];
            run.for_money = for_money && !run.choice.given;
            take(run, sizes[m][found ? (*found)[m] : sizes[m].size() - 1]);
        }
        return true;
    }

    /// The same without the limits that even the thickest sizes do not keep: those runs are told, and spoil no other's.
    static std::vector<FedRun> without_hopeless(std::vector<FedRun> problem) {
        std::vector<Voltage> least(problem.size());
        for (std::size_t i = 0; i < problem.size(); ++i) {
            FedRun& run = problem[i];
            for (const SizeOffer& offer : run.offers)
                if (&offer == run.offers.data() || offer.lost < least[i]) least[i] = offer.lost;
            if (run.fed_by) least[i] += least[*run.fed_by];
            if (run.limit && least[i] > *run.limit) run.limit.reset();
        }
        return problem;
    }

    /// Of what may be lost from the source on. A charger has to keep its input at the lowest running voltage as well; the
    /// volts lost then are more than those counted here, as its current is.
    static Voltage limit_of(const SystemRun& task) {
        const Voltage allowed = *task.supply.drop_limit * nominal_voltage;
        const auto* charger = std::get_if<ConverterLoad>(&task.load);
        if (!charger) return allowed;
        const Voltage required = charger->input_off + input_margin;
        const Power power = converter_power(charger->output, charger->absorption, charger->efficiency).power;
        const Ratio counted = counted_current(task) / (power / required);
        return std::min<Voltage>(allowed, std::max<Voltage>(*task.supply.lowest - required, Voltage{}) * counted);
    }

    /// Whether the next thinner size that would do costs as much or more, or is not for sale.
    static bool decided_by_price(const RunPlan& run) {
        if (!run.for_money) return false;
        for (std::size_t k = *run.choice.taken; k-- > 0;)
            if (run.choice.ladder[k].fits()) return !run.costs[k] || *run.costs[k] >= *run.costs[*run.choice.taken];
        return false;
    }

    static void take(RunPlan& run, std::size_t size) {
        if (run.choice.given) return;
        run.choice.taken = size;
        run.choice.decided_by.reset();
        if (decided_by_price(run)) {
            run.choice.decided_by = Criterion::price;
            return;
        }
        if (const Candidate* thinner = run.choice.thinner())
            run.choice.decided_by = thinner->fits() ? Criterion::drop : thinner->fails.front();
    }

    /// What is lost from the source to the end of each run that shares a way.
    void note_ways() {
        for (const std::size_t i : order_) {
            RunPlan& run = runs_[i];
            if (!shares_[i] || !run.taken() || !run.taken()->drop) continue;
            Voltage lost = lost_in(run, *run.taken());
            if (parent_[i]) {
                // Behind a trunk without a size nothing is known of the way.
                if (!runs_[*parent_[i]].way) continue;
                lost += runs_[*parent_[i]].way->lost;
            }
            run.way = WayDrop{lost, limit_of(run.task), {}, false};
        }
        settle_ways();
    }

    /// All runs that share a way, solved as one network at every minute of the day at which something is switched on: the
    /// lowest voltage that each sees while it is on.
    void settle_ways() {
        std::vector<int> minutes = {0};
        for (const RunPlan& run : runs_)
            for (const ClockWindow& window : run.task.hours) minutes.push_back(window.from.minutes % (24 * 60));
        std::sort(minutes.begin(), minutes.end());
        minutes.erase(std::unique(minutes.begin(), minutes.end()), minutes.end());
        for (const std::size_t i : order_)
            if (shares_[i] && !parent_[i])
                for (const int minute : minutes) settle_at(minute, i);
    }

    /// The first run of the way to a run.
    [[nodiscard]] std::size_t root_of(std::size_t run) const {
        while (parent_[run]) run = *parent_[run];
        return run;
    }

    [[nodiscard]] static bool is_on(const SystemRun& task, int minute) {
        return task.hours.empty() || std::any_of(task.hours.begin(), task.hours.end(),
                                                 [minute](const ClockWindow& window) { return window.holds(minute); });
    }

    void settle_at(int minute, std::size_t root) {
        std::vector<NetworkSection> sections;
        std::vector<std::size_t> members;
        std::vector<std::optional<std::size_t>> place(runs_.size());
        for (const std::size_t i : order_) {
            const RunPlan& run = runs_[i];
            if (!run.way || root_of(i) != root) continue;
            NetworkSection section{{}, run.taken()->drop->resistance.loop, {}};
            if (parent_[i]) section.from = place[*parent_[i]];
            if (run.task.role != RunRole::trunk && is_on(run.task, minute))
                section.loads.push_back(law_of(run.task.load));
            place[i] = members.size();
            members.push_back(i);
            sections.push_back(std::move(section));
        }
        if (members.empty()) return;
        const auto settled = solve_network(runs_[members.front()].task.supply.normal, sections);
        for (std::size_t m = 0; m < members.size(); ++m) {
            WayDrop& way = *runs_[members[m]].way;
            if (!settled) way.collapses = true;
            if (!settled || !is_on(runs_[members[m]].task, minute)) continue;
            way.far_end = std::min(way.far_end.value_or(settled->far_end[m]), settled->far_end[m]);
        }
    }

    const System& system_;
    const Tables& tables_;
    Ladder ladder_;
    const Objective* objective_;
    std::vector<RunPlan> runs_;
    std::vector<std::optional<std::size_t>> parent_;
    std::vector<bool> shares_;  ///< a way with other runs
    std::vector<std::size_t> order_;
};

}  // namespace

std::vector<RunPlan> choose_cables(const System& system, const Tables& tables, Ladder ladder,
                                   const Objective* objective) {
    return Chooser(system, tables, ladder, objective).choose(true);
}

std::vector<RunPlan> choose_again(const System& system, const std::vector<RunPlan>& chosen, Temperature insulation,
                                  const Tables& tables, const Objective* objective) {
    Chooser chooser(system, tables, Ladder::first, objective);
    chooser.buy(insulation, chosen);
    return std::move(chooser).choose(false);
}

}  // namespace voltwright

#include "voltwright/planning/shared_ways.hpp"

#include "voltwright/sizing/least_cost.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace voltwright {

Current counted_current(const SystemRun& task) {
    const Voltage normal = task.supply.normal;
    return most_current(law_of(task.load), normal - *task.supply.drop_limit * nominal_voltage, normal);
}

Voltage allowed_loss(const SystemRun& task) {
    const Voltage allowed = *task.supply.drop_limit * nominal_voltage;
    const auto* charger = std::get_if<ConverterLoad>(&task.load);
    if (!charger) return allowed;
    const Voltage required = charger->input_off + input_margin;
    const Power power = converter_power(charger->output, charger->absorption, charger->efficiency).power;
    const Ratio counted = counted_current(task) / (power / required);
    return std::min<Voltage>(allowed, std::max<Voltage>(*task.supply.lowest - required, Voltage{}) * counted);
}

Voltage counted_loss(const RunPlan& run, const Candidate& candidate) {
    return counted_current(run.task) * candidate.drop->resistance.loop;
}

std::vector<std::size_t> usable_sizes(const RunPlan& run) {
    // A trunk stays what it is for the choice of its branches, even where no size of it fits.
    const bool alone = run.choice.given || (run.task.role == RunRole::trunk && run.choice.nothing_fits());
    std::vector<std::size_t> sizes;
    for (std::size_t k = 0; k < run.choice.ladder.size(); ++k) {
        const Candidate& candidate = run.choice.ladder[k];
        const bool wanted = alone ? run.choice.taken == k : candidate.fits();
        if (wanted && candidate.drop) sizes.push_back(k);
    }
    return sizes;
}

std::vector<std::size_t> sizes_for_sale(const RunPlan& run, const Objective& objective) {
    std::vector<std::size_t> sizes = usable_sizes(run);
    if (std::any_of(sizes.begin(), sizes.end(),
                    [&](std::size_t k) { return objective.any_size_alike(run.task, run.choice.ladder[k].size); }))
        return {};
    std::erase_if(sizes, [&](std::size_t k) { return !run.costs[k]; });
    return sizes;
}

namespace {

/// Whether the next thinner size that would do costs as much or more, or is not for sale.
bool decided_by_price(const RunPlan& run) {
    if (!run.for_money) return false;
    for (std::size_t k = *run.choice.taken; k-- > 0;)
        if (run.choice.ladder[k].fits()) return !run.costs[k] || *run.costs[k] >= *run.costs[*run.choice.taken];
    return false;
}

/// Copper out and back, in mm²·m.
double copper_of(const RunPlan& run, const Candidate& candidate, const Tables& tables) {
    double areas = in_square_millimetres(candidate.area);
    if (!run.task.run.body) {
        const auto& back = run.task.run.return_size;
        areas += in_square_millimetres(back ? conductor_of(tables, *back)->area : candidate.area);
    }
    return areas * in_metres(*run.task.run.length);
}

/// What one tree of runs asks of least_cost(), and which run and which size of its ladder each option stands for.
struct TreeProblem {
    std::vector<std::size_t> runs;
    std::vector<std::vector<std::size_t>> sizes;
    std::vector<FedRun> problem;
};

/// What a size is weighed by: money where it is to be bought for money, nothing beside that, else copper.
double cost_of(const RunPlan& run, std::size_t size, const Tables& tables, const Objective* money) {
    if (money) return run.choice.given ? 0.0 : static_cast<double>(run.costs[size]->ten_thousandths);
    return copper_of(run, run.choice.ladder[size], tables);
}

/// With `money` what has no price is not for sale.
std::vector<std::size_t> sizes_to_choose_from(const RunPlan& run, const Objective* money) {
    return money && !run.choice.given ? sizes_for_sale(run, *money) : usable_sizes(run);
}

/// A branch without a size is said of that branch, and the others are chosen all the same.
bool is_left_out(const RunPlan& run) { return run.task.role != RunRole::trunk && usable_sizes(run).empty(); }

/// Empty where a run that cannot be left out has no size to choose from.
std::optional<TreeProblem> tree_problem(const std::vector<RunPlan>& runs, const RunTree& tree,
                                        const std::vector<std::size_t>& members, const Tables& tables,
                                        const Objective* money) {
    TreeProblem asked;
    std::vector<std::optional<std::size_t>> number(runs.size());
    for (const std::size_t i : members) {
        const RunPlan& run = runs[i];
        std::vector<std::size_t> sizes = sizes_to_choose_from(run, money);
        if (sizes.empty()) {
            if (is_left_out(run)) continue;
            return {};
        }
        FedRun one{};
        if (tree.before[i]) one.fed_by = number[*tree.before[i]];
        for (const std::size_t k : sizes)
            one.options.push_back({cost_of(run, k, tables, money), counted_loss(run, run.choice.ladder[k])});
        if (run.task.role != RunRole::trunk) one.limit = allowed_loss(run.task);
        number[i] = asked.runs.size();
        asked.runs.push_back(i);
        asked.sizes.push_back(std::move(sizes));
        asked.problem.push_back(std::move(one));
    }
    return asked;
}

/// The same without the limits that even the thickest sizes do not keep: those runs are told, and spoil no other's.
std::vector<FedRun> without_hopeless(std::vector<FedRun> problem) {
    std::vector<Voltage> least(problem.size());
    for (std::size_t i = 0; i < problem.size(); ++i) {
        FedRun& run = problem[i];
        for (const SizeOption& option : run.options)
            if (&option == run.options.data() || option.lost < least[i]) least[i] = option.lost;
        if (run.fed_by) least[i] += least[*run.fed_by];
        if (run.limit && least[i] > *run.limit) run.limit.reset();
    }
    return problem;
}

/// Takes a size for each run of one tree. False, and nothing taken, where with `money` some have no price or the ones that
/// have keep no limit.
bool choose_tree(std::vector<RunPlan>& runs, const RunTree& tree, const std::vector<std::size_t>& members,
                 const Tables& tables, const Objective* money) {
    const auto asked = tree_problem(runs, tree, members, tables, money);
    if (!asked) return false;
    if (asked->runs.empty()) return true;
    auto found = least_cost(asked->problem);
    if (money && !found) return false;
    if (!found) found = least_cost(without_hopeless(asked->problem));
    for (std::size_t m = 0; m < asked->runs.size(); ++m) {
        RunPlan& run = runs[asked->runs[m]];
        run.for_money = money && !run.choice.given;
        take(run, asked->sizes[m][found ? (*found)[m] : asked->sizes[m].size() - 1]);
    }
    return true;
}

}  // namespace

void take(RunPlan& run, std::size_t size) {
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

void choose_shared_ways(std::vector<RunPlan>& runs, const RunTree& tree, const Tables& tables,
                        const Objective* objective) {
    for (const std::size_t root : tree.order) {
        if (!tree.shares(root) || tree.before[root]) continue;
        std::vector<std::size_t> members;
        std::copy_if(tree.order.begin(), tree.order.end(), std::back_inserter(members),
                     [&](std::size_t i) { return tree.root[i] == root; });
        if (objective && choose_tree(runs, tree, members, tables, objective)) continue;
        choose_tree(runs, tree, members, tables, nullptr);
    }
}

}  // namespace voltwright

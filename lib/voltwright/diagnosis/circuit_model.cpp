#include "voltwright/diagnosis/circuit_model.hpp"

#include "voltwright/diagnosis/element_resistances.hpp"
#include "voltwright/planning/plan.hpp"

#include <algorithm>

namespace voltwright {

std::optional<std::size_t> CircuitModel::branch_of(std::string_view run) const {
    for (std::size_t i = 0; i < branches.size(); ++i)
        if (branches[i].run == run) return i;
    return {};
}

std::optional<std::size_t> CircuitModel::element_of(std::string_view name) const {
    for (std::size_t i = 0; i < elements.size(); ++i)
        if (elements[i].element.name == name) return i;
    return {};
}

bool CircuitModel::leads_through(std::size_t branch, std::size_t place) const {
    for (std::optional<std::size_t> at = place; at; at = branches[*at].from)
        if (*at == branch) return true;
    return false;
}

std::vector<Resistance> CircuitModel::expected_resistances() const {
    std::vector<Resistance> all;
    all.reserve(elements.size());
    for (const CircuitElement& element : elements) all.push_back(element.expected);
    return all;
}

bool is_of_the_sun(const RunPlan& run) {
    return run.task.role == RunRole::solar || run.task.run.source_limit.has_value();
}

namespace {

/// What the sun pushes through its cables is no part of a test that somebody can repeat.
bool has_resistances(const RunPlan& run) { return !is_of_the_sun(run) && run.taken() && run.taken()->drop; }

/// The branch of a run, without its elements; empty as long as the one that it begins at is not there.
std::optional<Branch> branch_for(const CircuitModel& model, const RunTree& tree, const RunPlan& run,
                                 std::size_t plan_run) {
    Branch branch{.run = *run.task.run.name,
                  .plan_run = plan_run,
                  .role = run.task.role,
                  .near = near_point(run.task),
                  .far = far_point(run.task),
                  .by_starter = run.task.from.kind == PlaceKind::starter_battery,
                  .from = {},
                  .elements = {}};
    // The run from the charger is fed by the house battery behind it.
    if (run.task.role == RunRole::output || is_battery(run.task.from)) return branch;
    const auto before = std::find_if(model.branches.begin(), model.branches.end(),
                                     [&](const Branch& one) { return one.plan_run == tree.before[plan_run]; });
    if (before == model.branches.end()) return {};
    branch.from = static_cast<std::size_t>(before - model.branches.begin());
    branch.by_starter = before->by_starter;
    return branch;
}

void add_branch(CircuitModel& model, Branch branch, const RunPlan& run, const Tables& tables) {
    const std::size_t index = model.branches.size();
    for (CircuitElement& element : elements_with_resistances(run, index, tables)) {
        branch.elements.push_back(model.elements.size());
        model.elements.push_back(std::move(element));
    }
    if (run.task.role == RunRole::feed) model.feed = index;
    if (run.task.role == RunRole::output) model.output = index;
    // What a charger draws depends on its output.
    if (run.task.role == RunRole::appliance && !std::holds_alternative<ConverterLoad>(run.task.load))
        model.loads.push_back({run.task.to.name, index, law_of(run.task.load)});
    model.branches.push_back(std::move(branch));
}

/// A run comes in once the one that it begins at is there.
void add_branches(CircuitModel& model, const RunTree& tree, const Plan& plan, const Tables& tables) {
    std::vector<bool> done(plan.runs.size());
    for (bool more = true; more;) {
        more = false;
        for (std::size_t i = 0; i < plan.runs.size(); ++i) {
            if (done[i] || !has_resistances(plan.runs[i])) continue;
            auto branch = branch_for(model, tree, plan.runs[i], i);
            if (!branch) continue;
            add_branch(model, std::move(*branch), plan.runs[i], tables);
            done[i] = more = true;
        }
    }
}

/// The inverter's own draw, and the loads behind it, each with what the inverter loses of it.
void add_inverter(CircuitModel& model, const System& system) {
    if (!system.inverter) return;
    for (std::size_t i = 0; i < model.branches.size(); ++i) {
        if (model.branches[i].role != RunRole::inverter) continue;
        model.inverter = {i, system.inverter->standby.value_or(Power{})};
        for (const LoadUnit& load : system.loads) {
            const auto* power = std::get_if<Power>(&load.draw);
            if (load.through_inverter && power)
                model.loads.push_back({load.name, i, *power / system.inverter->efficiency});
        }
    }
}

}  // namespace

CircuitModel circuit_model_of(const System& system, const Plan& plan, const Tables& tables) {
    CircuitModel model;
    model.charger_output = system.charger.output;
    model.charger_efficiency = system.charger.efficiency;
    model.charger_input_off = system.charger.input_off;
    model.charger_input_limit = system.charger.input_limit;
    add_branches(model, system.tree, plan, tables);
    add_inverter(model, system);
    return model;
}

}  // namespace voltwright

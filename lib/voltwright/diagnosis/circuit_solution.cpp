#include "voltwright/diagnosis/circuit_solution.hpp"

#include "voltwright/circuit/converter.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// No vehicle has more: a search that asks for it has gone astray, and what it asks for would overflow.
constexpr Current most_charge = amperes(1e5);
constexpr Resistance most_resistance = ohms(1e6);
constexpr double most_share = 1e6;

bool believable(const SourceState& sources, Current charge, std::span<const Resistance> resistances) {
    if (!(sources.starter > Voltage{}) || !(sources.house > Voltage{}) || !(charge < most_charge)) return false;
    if (!(sources.losses < most_share)) return false;
    return std::all_of(sources.draws.begin(), sources.draws.end(), [](double share) { return share < most_share; }) &&
           std::all_of(resistances.begin(), resistances.end(), [](Resistance one) { return one < most_resistance; });
}

/// Of each branch, the resistance of its way out and of its way back.
struct SideResistances {
    std::vector<Resistance> out, back;
};

SideResistances side_resistances(const CircuitModel& model, std::span<const Resistance> resistances) {
    SideResistances sides;
    sides.out.resize(model.branches.size());
    sides.back.resize(model.branches.size());
    for (std::size_t i = 0; i < model.branches.size(); ++i)
        for (const std::size_t element : model.branches[i].elements)
            (model.elements[element].element.side == Side::out ? sides.out : sides.back)[i] += resistances[element];
    return sides;
}

LoadLaw share_of(const LoadLaw& load, double share) {
    if (const auto* resistance = std::get_if<Resistance>(&load)) return *resistance / share;
    if (const auto* power = std::get_if<Power>(&load)) return *power * share;
    return std::get<Current>(load) * share;
}

/// The runs that hang on one battery.
struct Tree {
    const CircuitModel& model;
    bool by_starter;

    [[nodiscard]] bool holds(std::size_t branch) const {
        return model.branches[branch].by_starter == by_starter && model.branches[branch].role != RunRole::output;
    }
};

/// What draws in a tree, and at which branch's end. The charger, where it runs, stands last.
struct TreeLoads {
    struct AtBranch {
        std::size_t branch;
        LoadLaw load;
    };
    std::vector<AtBranch> all;
    std::optional<Current> charger_most =
        {};  ///< the current that the charger never passes; empty: it is not among them
};

TreeLoads appliances_of(const Tree& tree, const TestCondition& condition, const SourceState& sources) {
    const CircuitModel& model = tree.model;
    TreeLoads loads;
    bool inverting = false;
    for (std::size_t i = 0; i < model.loads.size(); ++i) {
        const CircuitLoad& load = model.loads[i];
        if (!tree.holds(load.branch) || !condition.is_on(load)) continue;
        loads.all.push_back({load.branch, share_of(load.draw, sources.draws[i])});
        if (model.inverter && load.branch == model.inverter->branch) inverting = true;
    }
    if (inverting) loads.all.push_back({model.inverter->branch, model.inverter->power});
    return loads;
}

/// What the charger takes in for what it gives.
void add_charger(const CircuitModel& model, const SourceState& sources, Current charge, Voltage output,
                 TreeLoads& loads) {
    const Power taken = sources.losses * converter_power(charge, output, model.charger_efficiency).power;
    loads.all.push_back({*model.feed, taken});
    // Below `input_off` it gives up: no more flows than it takes there.
    Current most = taken / model.charger_input_off;
    if (model.charger_input_limit) most = std::min(most, *model.charger_input_limit);
    loads.charger_most = most;
}

/// The branches of a tree that lead to a load: where nothing is on nothing flows.
struct Carrying {
    std::vector<NetworkSection> network;
    std::vector<std::optional<std::size_t>> place;  ///< of each branch, its section; empty: nothing flows in it
};

Carrying carrying(const CircuitModel& model, const TreeLoads& loads, const SideResistances& sides) {
    Carrying answer;
    answer.place.resize(model.branches.size());
    if (loads.all.empty()) return answer;
    std::vector<bool> carries(model.branches.size());
    for (const auto& one : loads.all)
        for (std::optional<std::size_t> at = one.branch; at && !carries[*at]; at = model.branches[*at].from)
            carries[*at] = true;
    answer.network.reserve(model.branches.size());
    for (std::size_t i = 0; i < model.branches.size(); ++i) {
        if (!carries[i]) continue;
        NetworkSection section{.from = {}, .loop = sides.out[i] + sides.back[i], .loads = {}};
        if (model.branches[i].from) section.from = answer.place[*model.branches[i].from];
        answer.place[i] = answer.network.size();
        answer.network.push_back(std::move(section));
    }
    for (const auto& one : loads.all) answer.network[*answer.place[one.branch]].loads.push_back(one.load);
    return answer;
}

/// The current of each section; empty when the loads cannot be fed.
std::optional<std::vector<Current>> currents_of(Voltage source, Carrying& carrying, const CircuitModel& model,
                                                const TreeLoads& loads) {
    if (carrying.network.empty()) return std::vector<Current>{};
    auto solved = solve_network(source, carrying.network);
    if (loads.charger_most) {
        // At its input limit the charger is a constant current.
        const std::size_t feed = *carrying.place[*model.feed];
        if (!solved || solved->current[feed] > *loads.charger_most) {
            carrying.network[feed].loads.back() = *loads.charger_most;
            solved = solve_network(source, carrying.network);
        }
    }
    if (!solved) return {};
    return std::move(solved->current);
}

/// False when the loads of this battery cannot be fed.
bool solve_tree(const Tree& tree, const TreeLoads& loads, const SideResistances& sides, Solution& solution) {
    const CircuitModel& model = tree.model;
    const Voltage source = tree.by_starter ? solution.starter : solution.house;
    Carrying network = carrying(model, loads, sides);
    const auto currents = currents_of(source, network, model, loads);
    if (!currents) return false;
    for (std::size_t i = 0; i < model.branches.size(); ++i) {
        if (!tree.holds(i)) continue;
        const auto& from = model.branches[i].from;
        solution.plus[i] = from ? solution.plus[*from] : source;
        solution.minus[i] = from ? solution.minus[*from] : Voltage{};
        if (!network.place[i]) continue;
        solution.current[i] = (*currents)[*network.place[i]];
        solution.plus[i] -= solution.current[i] * sides.out[i];
        solution.minus[i] += solution.current[i] * sides.back[i];
    }
    return true;
}

}  // namespace

std::optional<Solution> solve(const CircuitModel& model, const TestCondition& condition, const SourceState& sources,
                              std::span<const Resistance> resistances) {
    const Current charge = condition.charger_runs() ? sources.charge : Current{};
    if (!believable(sources, charge, resistances)) return {};
    const SideResistances sides = side_resistances(model, resistances);
    Solution solution;
    solution.starter = sources.starter;
    solution.house = sources.house;
    solution.plus.resize(model.branches.size());
    solution.minus.resize(model.branches.size());
    solution.current.resize(model.branches.size());
    if (model.output) {
        solution.current[*model.output] = charge;
        solution.output_plus = sources.house + charge * sides.out[*model.output];
        solution.output_minus = -charge * sides.back[*model.output];
        solution.plus[*model.output] = sources.house;
    }
    for (const bool by_starter : {true, false}) {
        const Tree tree{model, by_starter};
        TreeLoads loads = appliances_of(tree, condition, sources);
        if (model.feed && by_starter && charge > Current{})
            add_charger(model, sources, charge, solution.output_plus - solution.output_minus, loads);
        if (!solve_tree(tree, loads, sides, solution)) return {};
    }
    return solution;
}

}  // namespace voltwright

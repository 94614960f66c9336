// A second opinion on what a meter shows: the packaged general circuit simulator solves the whole vehicle, every joint and
// cable a resistor of its own, and every point and element that a lead can touch is read there as well.
//
// The netlist is written from the circuit model's resistances, drawn at random. What the simulator knows of a charger is its law: at
// its output a current, at its input a current source of P/v with P the power that the output takes, over its efficiency.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/diagnosis/predicted_reading.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <random>
#include <string>
#include <vector>

using namespace voltwright;

namespace {

std::string digits(double value) {
    char text[40];
    std::snprintf(text, sizeof text, "%.15g", value);
    return text;
}

/// Node names of a circuit model: `s3p` is the positive conductor at the far end of branch 3, `e7` the node behind element 7.
class Netlist {
public:
    Netlist(const CircuitModel& model, const TestCondition& state, const SourceState& supply,
            const std::vector<Resistance>& resistances)
        : model_(model), resistances_(resistances) {
        text_ = "a vehicle\n";
        line("VS startp 0 " + digits(in_volts(supply.starter)));
        line("VH housep 0 " + digits(in_volts(supply.house)));
        const double charge = state.charging() ? in_amperes(supply.charge) : 0.0;
        for (std::size_t i = 0; i < model.branches.size(); ++i) {
            const Branch& branch = model.branches[i];
            if (branch.role == RunRole::output) {
                chain(i, Side::out, "outp", "housep");
                chain(i, Side::back, "0", "outm");
                line("IO outm outp " + digits(charge));
                continue;
            }
            chain(i, Side::out, root(i, 'p'), node(i, 'p'));
            chain(i, Side::back, node(i, 'm'), root(i, 'm'));
            if (branch.role == RunRole::feed && charge > 0.0) {
                const double share = charge * supply.losses / in_ratio(model.charger_efficiency);
                // Constant power, and no more current than that power takes at the voltage at which it gives up.
                line("BF " + node(i, 'p') + " " + node(i, 'm') + " I = " + digits(share) + "*v(outp,outm)/max(v(" +
                     node(i, 'p') + "," + node(i, 'm') + ")," + digits(in_volts(model.charger_input_off)) + ")");
            }
        }
        for (std::size_t i = 0; i < model.loads.size(); ++i) {
            const CircuitLoad& load = model.loads[i];
            if (std::find(state.with.begin(), state.with.end(), load.name) == state.with.end()) continue;
            const std::string ends = node(load.branch, 'p') + " " + node(load.branch, 'm');
            const std::string number = std::to_string(i);
            const double share = supply.draws[i];
            if (const auto* power = std::get_if<Power>(&load.draw))
                // Below 3 V it draws no more: the simulator may take the lower root otherwise.
                line("BL" + number + " " + ends + " I = " + digits(share * in_watts(*power)) + "/max(v(" +
                     node(load.branch, 'p') + "," + node(load.branch, 'm') + "),3)");
            else if (const auto* current = std::get_if<Current>(&load.draw))
                line("IL" + number + " " + ends + " " + digits(share * in_amperes(*current)));
            else
                line("RL" + number + " " + ends + " " + digits(in_ohms(std::get<Resistance>(load.draw)) / share));
        }
        if (model.inverter && std::any_of(model.loads.begin(), model.loads.end(), [&](const CircuitLoad& load) {
                return load.branch == model.inverter->branch &&
                       std::find(state.with.begin(), state.with.end(), load.name) != state.with.end();
            }))
            line("BI " + node(model.inverter->branch, 'p') + " " + node(model.inverter->branch, 'm') +
                 " I = " + digits(in_watts(model.inverter->power)) + "/v(" + node(model.inverter->branch, 'p') + "," +
                 node(model.inverter->branch, 'm') + ")");
        // From above, or the simulator may take the lower root.
        std::string sets;
        for (const auto& [name, high] : nodes_) sets += " v(" + name + ")=" + (high ? "12.5" : "0");
        line(".nodeset" + sets);
        line(".options reltol=1e-12 abstol=1e-15 vntol=1e-13 gmin=1e-18");
        line(".control\nset numdgt=15\nop");
    }

    void print(const std::string& what) { line("print " + what); }
    [[nodiscard]] std::string whole() const { return text_ + "quit 0\n.endc\n.end\n"; }
    [[nodiscard]] std::string node(std::size_t branch, char pole) const {
        return "s" + std::to_string(branch) + std::string(1, pole);
    }
    [[nodiscard]] std::string over(std::size_t element) const {
        const auto& [from, to] = ends_.at(element);
        if (from == "0") return "-v(" + to + ")";
        return "v(" + from + ")" + (to == "0" ? "" : "-v(" + to + ")");
    }

private:
    void line(const std::string& words) { text_ += words + "\n"; }

    [[nodiscard]] std::string root(std::size_t branch, char pole) const {
        if (const auto& from = model_.branches[branch].from) return node(*from, pole);
        return pole == 'm' ? "0" : model_.branches[branch].by_starter ? "startp" : "housep";
    }

    void chain(std::size_t branch, Side side, std::string from, const std::string& to) {
        std::vector<std::size_t> elements;
        for (const std::size_t element : model_.branches[branch].elements)
            if (model_.elements[element].element.side == side) elements.push_back(element);
        for (std::size_t i = 0; i < elements.size(); ++i) {
            const std::string next = i + 1 == elements.size() ? to : "e" + std::to_string(elements[i]);
            line("R" + std::to_string(elements[i]) + " " + from + " " + next + " " +
                 digits(in_ohms(resistances_[elements[i]])));
            ends_[elements[i]] = {from, next};
            for (const std::string& name : {from, next})
                if (name != "0") nodes_[name] = side == Side::out;
            from = next;
        }
    }

    const CircuitModel& model_;
    const std::vector<Resistance>& resistances_;
    std::string text_;
    std::map<std::size_t, std::pair<std::string, std::string>> ends_;
    std::map<std::string, bool> nodes_;
};

/// All that the simulator prints, in order.
std::vector<double> simulated(const std::string& netlist) {
    const auto folder = std::filesystem::temp_directory_path();
    const std::filesystem::path file =
        folder / ("voltwright-circuit-" + std::to_string(std::hash<std::string>{}(netlist)) + ".cir");
    std::ofstream(file) << netlist;
    std::vector<double> values;
    FILE* pipe = popen(("ngspice -b " + file.string() + " 2>/dev/null").c_str(), "r");
    REQUIRE(pipe);
    char line[512];
    while (std::fgets(line, sizeof line, pipe)) {
        const std::string text = line;
        const std::size_t equals = text.rfind(" = ");
        if (equals == std::string::npos || (text.rfind("v(", 0) != 0 && text.rfind("-v(", 0) != 0)) continue;
        char* end = nullptr;
        const double value = std::strtod(text.c_str() + equals + 3, &end);
        if (end != text.c_str() + equals + 3) values.push_back(value);
    }
    CHECK(pclose(pipe) == 0);
    std::filesystem::remove(file);
    return values;
}

System example(const std::string& name) {
    std::ifstream file(VOLTWRIGHT_TOP_FOLDER "/examples/profiles/" + name + ".toml");
    return testing::system_of_text(std::string(std::istreambuf_iterator<char>(file), {}));
}

}  // namespace

TEST_CASE("what a meter should show, at every point and across every joint, is what a circuit simulator has there") {
    std::size_t compared = 0;
    for (const char* name : {"simplest", "seed-collector", "bee-van", "arctic-library", "surf-wagon"}) {
        const System system = example(name);
        const Plan plan = make_plan(system);
        const CircuitModel model = circuit_model_of(system, plan, built_in_tables());
        std::mt19937 draw(20);
        const auto even = [&](double low, double high) {
            return low + (high - low) * static_cast<double>(draw()) / 4294967295.0;
        };
        std::vector<Resistance> resistances;
        for (const CircuitElement& element : model.elements) resistances.push_back(even(0.5, 3.0) * element.expected);
        std::vector<TestCondition> states = {{Engine::driving, {}}, {Engine::off, {}}};
        for (const CircuitLoad& load : model.loads) {
            states.push_back({Engine::off, {load.name}});
            states[1].with.push_back(load.name);
        }
        states.push_back({Engine::driving, states[1].with});
        for (const TestCondition& state : states) {
            CAPTURE(std::string(name));
            const SourceState supply{.starter = volts(even(13.8, 14.4)),
                                     .house = volts(even(12.2, 13.4)),
                                     .charge = even(0.7, 1.0) * model.charger_output,
                                     .draws = std::vector<double>(model.loads.size(), even(0.8, 1.2)),
                                     .losses = even(0.95, 1.05)};
            const auto flows = solve(model, state, supply, resistances);
            REQUIRE(flows);
            Netlist netlist(model, state, supply, resistances);
            std::vector<double> ours;
            const auto ask = [&](const std::string& what, const std::optional<Probe>& probe) {
                REQUIRE(probe);
                netlist.print(what);
                ours.push_back(predicted_reading(model, *probe, *flows, resistances).number());
            };
            for (std::size_t i = 0; i < model.branches.size(); ++i) {
                const Branch& branch = model.branches[i];
                if (branch.role == RunRole::output) {
                    ask("v(outp)-v(outm)", probe_across(model, {"charger output"}));
                    ask("v(outp)-v(housep)", probe_across(model, {"charger output +", "battery +"}));
                    ask("-v(outm)", probe_across(model, {"battery -", "charger output -"}));
                } else {
                    const std::string plus = "v(" + netlist.node(i, 'p') + ")",
                                      minus = "v(" + netlist.node(i, 'm') + ")";
                    ask(plus + "-" + minus, probe_across(model, {branch.far}));
                    ask((branch.by_starter ? "v(startp)-" : "v(housep)-") + plus,
                        probe_across(model, {branch.by_starter ? "starter +" : "battery +", branch.far + " +"}));
                    ask(minus, probe_across(model, {branch.far + " -", branch.by_starter ? "starter -" : "battery -"}));
                }
                for (const std::size_t element : branch.elements)
                    ask(netlist.over(element), probe_across(model, {model.elements[element].element.name}));
            }
            const std::vector<double> theirs = simulated(netlist.whole());
            REQUIRE(theirs.size() == ours.size());
            for (std::size_t i = 0; i < ours.size(); ++i) CHECK(std::abs(ours[i] - theirs[i]) <= 1e-6);
            compared += ours.size();
        }
    }
    CHECK(compared > 500);
}

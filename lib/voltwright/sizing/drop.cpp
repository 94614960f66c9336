#include "voltwright/sizing/drop.hpp"

#include <utility>

namespace voltwright {

namespace {

/// At the edge of what can be delivered the substitution takes many steps.
constexpr int most_steps = 5000;

/// At a source voltage through a loop of this resistance; its conductors come later.
std::optional<SettledLoad> through(const RunLoad& load, Voltage source, Resistance loop) {
    struct {
        Voltage source;
        Resistance loop;
        std::optional<SettledLoad> operator()(const ConverterLoad& charger) const {
            const ConverterPower power = converter_power(charger.output, charger.absorption, charger.efficiency);
            const auto input = converter_input(source, loop, power.power, charger.input_limit);
            if (!input) return {};
            return SettledLoad{power, input, input->current, {}};
        }
        std::optional<SettledLoad> operator()(const SteadyLoad& steady) const {
            if (source <= *steady.current * loop) return {};
            return SettledLoad{{}, {}, steady.current, {}};
        }
        std::optional<SettledLoad> operator()(const PowerLoad& appliance) const {
            const auto input = converter_input(source, loop, appliance.power);
            if (!input) return {};
            return SettledLoad{{}, input, input->current, {}};
        }
        std::optional<SettledLoad> operator()(const ResistiveLoad& heater) const {
            return SettledLoad{{}, {}, source / (*heater.resistance + loop), {}};
        }
        std::optional<SettledLoad> operator()(const PanelLoad& panels) const {
            if (source <= *panels.most_power * loop) return {};
            return SettledLoad{{}, {}, panels.most_power, {}};
        }
    } draws{source, loop};
    return std::visit(draws, load);
}

}  // namespace

std::optional<SettledLoad> settle(const RunLoad& load, const WarmRun& run, Voltage source) {
    WarmRun::Temperatures conductors{run.around, run.around};
    for (int step = 0; step < most_steps; ++step) {
        auto settled = through(load, source, run.loop(conductors));
        if (!settled) return {};
        const WarmRun::Temperatures next = run.at(settled->current);
        if (abs(next.out - conductors.out) < kelvins(1e-9)) {
            settled->conductors = conductors;
            return settled;
        }
        conductors = next;
    }
    return {};
}

DropCheck drop_check(const SettledLoad& load, RunResistance resistance, const Supply& supply) {
    const Current current = load.current;
    const Voltage drop = current * resistance.loop;
    const Voltage cable = current * resistance.cable;
    const Voltage joints = current * resistance.all_joints;
    const Ratio limit = *supply.drop_limit;
    return {.source = supply.normal,
            .charger = load.charger,
            .input = load.input,
            .resistance = std::move(resistance),
            .current = current,
            .drop = drop,
            .cable_drop = cable,
            .joint_drop = joints,
            .share = drop / nominal_voltage,
            .limit = limit,
            .allowed = limit * nominal_voltage,
            .far_end = *supply.normal - drop,
            .heat = current * drop};
}

}  // namespace voltwright

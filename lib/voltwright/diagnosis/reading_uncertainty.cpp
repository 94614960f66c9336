#include "voltwright/diagnosis/reading_uncertainty.hpp"

#include "voltwright/tables/practice.hpp"

#include <cmath>

namespace voltwright {

namespace {

/// How far the currents of a test are from what the profile says, one standard deviation (data/practice/shares.toml):
/// a charger in its first stage keeps its output, a compressor's draw follows the weather.
const double charge_is_off = in_ratio(in_practice(PracticeShare::charge_is_off)),
             load_is_off = in_ratio(in_practice(PracticeShare::load_is_off)),
             losses_are_off = in_ratio(in_practice(PracticeShare::losses_are_off));

/// The sum of the squares of what each input moves.
struct Propagation {
    const SoundVehicle& sound;
    const Probe& probe;
    const TestCondition& condition;
    SourceState usual;
    MeterValue expected;
    double variance;
};

void add_moved(Propagation& sum, const SourceState& sources, const std::vector<Resistance>& resistances) {
    const auto solution = solve(sum.sound.model, sum.condition, sources, resistances);
    if (!solution) return;
    const double off = (predicted_reading(sum.sound.model, sum.probe, *solution, resistances) - sum.expected).number();
    sum.variance += off * off;
}

/// Does what a branch resists or feeds change what is shown there? What hangs on one run of a battery changes nothing on its
/// others.
bool matters(const SoundVehicle& sound, std::size_t branch, const Probe& probe) {
    // The charger takes in what it gives, and what is lost behind it.
    if (branch == sound.model.output) return true;
    const auto same_tree = [&](std::size_t other) { return sound.root[branch] == sound.root[other]; };
    if (const auto* through = std::get_if<Probe::Through>(&probe.what)) return same_tree(through->branch);
    if (const auto* over = std::get_if<Probe::Over>(&probe.what))
        return same_tree(sound.model.elements[over->element].branch);
    const auto& between = std::get<Probe::Between>(probe.what);
    const auto there = [&](const Probe::Point& point) {
        return point.at == Probe::Point::At::branch && same_tree(point.branch);
    };
    return there(between.red) || there(between.black);
}

/// The elements of a branch that are off together, and by how much their first is moved for all of them.
void add_elements(Propagation& sum, const std::vector<std::size_t>& elements) {
    std::vector<Resistance> moved = sum.sound.resistances;
    for (const std::size_t element : elements) moved[element] += sum.sound.model.elements[element].deviation;
    add_moved(sum, sum.usual, moved);
}

/// Everything on one side of a branch but its cable, which is added to `cables`. All act alike, but the one that is measured
/// across itself.
void add_side(Propagation& sum, std::size_t branch, Side side, std::vector<std::size_t>& cables) {
    const CircuitModel& model = sum.sound.model;
    const auto* over = std::get_if<Probe::Over>(&sum.probe.what);
    std::optional<std::size_t> any;
    double squares = 0.0;
    for (const std::size_t element : model.branches[branch].elements) {
        const CircuitElement& one = model.elements[element];
        if (one.element.side != side) continue;
        if (one.is_cable()) {
            cables.push_back(element);
        } else if (over && over->element == element) {
            add_elements(sum, {element});
        } else {
            any = element;
            squares += in_ohms(one.deviation) * in_ohms(one.deviation);
        }
    }
    if (!any) return;
    std::vector<Resistance> moved = sum.sound.resistances;
    moved[*any] += ohms(std::sqrt(squares));
    add_moved(sum, sum.usual, moved);
}

void add_resistances(Propagation& sum) {
    for (std::size_t branch = 0; branch < sum.sound.model.branches.size(); ++branch) {
        if (!matters(sum.sound, branch, sum.probe)) continue;
        // The cables of a run are as long and as warm as each other.
        std::vector<std::size_t> cables;
        for (const Side side : {Side::out, Side::back}) add_side(sum, branch, side, cables);
        add_elements(sum, cables);
    }
}

void add_charger(Propagation& sum) {
    if (!sum.condition.charger_runs()) return;
    SourceState other = sum.usual;
    other.charge *= 1.0 + charge_is_off;
    add_moved(sum, other, sum.sound.resistances);
    other = sum.usual;
    other.losses *= 1.0 + losses_are_off;
    add_moved(sum, other, sum.sound.resistances);
}

void add_loads(Propagation& sum) {
    for (std::size_t i = 0; i < sum.usual.draws.size(); ++i) {
        const CircuitLoad& load = sum.sound.model.loads[i];
        if (!matters(sum.sound, load.branch, sum.probe) || !sum.condition.is_on(load)) continue;
        SourceState other = sum.usual;
        other.draws[i] *= 1.0 + load_is_off;
        add_moved(sum, other, sum.sound.resistances);
    }
}

}  // namespace

std::optional<ExpectedReading> expected_reading(const SoundVehicle& sound, const Probe& probe,
                                                const TestCondition& condition) {
    const auto expected = predicted_reading(sound, probe, condition);
    if (!expected) return {};
    const double meter = sound.meter.uncertainty(*expected).number();
    Propagation sum{.sound = sound,
                    .probe = probe,
                    .condition = condition,
                    .usual = usual_sources(sound, condition),
                    .expected = *expected,
                    .variance = meter * meter};
    add_resistances(sum);
    add_charger(sum);
    add_loads(sum);
    return ExpectedReading{*expected, expected->of_same_unit(std::sqrt(sum.variance))};
}

}  // namespace voltwright

#include "voltwright/diagnosis/measurement_model.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// A step of a resistance in milliohms, and of a prior in standard deviations: small beside what bends the circuit's answer,
/// large beside what it is solved to.
constexpr double resistance_step = 1e-3, prior_step = 1e-5;
/// Volts for each ampere that a milliohm makes.
constexpr double ohms_in_milliohm = 1e-3;

/// The slopes under way: in the priors, and in each element's milliohms.
struct Slopes {
    Matrix priors;
    Matrix elements;
};

void add(const Vector& from, std::span<double> to) {
    for (std::size_t i = 0; i < to.size(); ++i) to[i] += from[i];
}

void add_times(double k, std::span<const double> from, std::span<double> to) {
    for (std::size_t i = 0; i < to.size(); ++i) to[i] += k * from[i];
}

/// One condition solved at the estimate, from which the small steps go.
struct Base {
    const MeasurementModel& model;
    std::size_t condition;
    SourceState sources;
    const std::vector<Resistance>& resistances;
    Solution solution;
    Vector shown;

    [[nodiscard]] const TestCondition& test() const { return model.conditions[condition].condition; }
};

/// What the measurements of one condition show; of the others zero.
Vector shown_in(const MeasurementModel& model, std::size_t condition, const Solution& solution,
                const std::vector<Resistance>& resistances) {
    Vector shown(model.measurements.size());
    for (std::size_t i = 0; i < shown.size(); ++i)
        if (model.condition_of[i] == condition)
            shown[i] = predicted_note(model.circuit, model.measurements[i].probe, solution, resistances).number();
    return shown;
}

std::optional<Vector> slope(const Base& base, const SourceState& sources, const std::vector<Resistance>& resistances,
                            double step) {
    const auto moved = solve(base.model.circuit, base.test(), sources, resistances);
    if (!moved) return {};
    Vector difference = shown_in(base.model, base.condition, *moved, resistances);
    for (std::size_t i = 0; i < difference.size(); ++i) difference[i] = (difference[i] - base.shown[i]) / step;
    return difference;
}

/// What a milliohm of an element adds to the measurements across it alone.
void add_across(const Base& base, std::size_t element, double sign, std::span<double> slope) {
    const MeasurementModel& model = base.model;
    const double volts_of_milliohm =
        sign * in_amperes(base.solution.current[model.circuit.elements[element].branch]) * ohms_in_milliohm;
    for (std::size_t i = 0; i < model.measurements.size(); ++i) {
        const auto* over = std::get_if<Probe::Over>(&model.measurements[i].probe.what);
        if (over && over->element == element && model.condition_of[i] == base.condition) slope[i] += volts_of_milliohm;
    }
}

/// All elements of one side of a branch act alike on everything but what is measured across themselves.
bool add_side_slopes(const Base& base, std::size_t branch, Side side, Matrix& elements_slopes) {
    // Where nothing flows a resistance changes nothing.
    if (base.solution.current[branch] == Current{}) return true;
    const CircuitModel& circuit = base.model.circuit;
    std::vector<std::size_t> elements;
    for (const std::size_t element : circuit.branches[branch].elements)
        if (circuit.elements[element].element.side == side) elements.push_back(element);
    if (elements.empty()) return true;
    std::vector<Resistance> moved = base.resistances;
    moved[elements.front()] += milliohms(resistance_step);
    auto common = slope(base, base.sources, moved, resistance_step);
    if (!common) return false;
    // Without what the first one shows of itself.
    add_across(base, elements.front(), -1.0, *common);
    for (const std::size_t element : elements) {
        add(*common, elements_slopes.column(element));
        add_across(base, element, 1.0, elements_slopes.column(element));
    }
    return true;
}

/// The priors that change what the sources do in a condition.
std::vector<std::size_t> priors_of_sources(const Base& base) {
    const UnknownLayout& layout = base.model.layout;
    std::vector<std::size_t> unknowns = {layout.charger_losses.first, layout.starter(base.condition),
                                         layout.house(base.condition), layout.charge(base.condition)};
    for (std::size_t i = 0; i < base.model.circuit.loads.size(); ++i)
        if (base.test().is_on(base.model.circuit.loads[i])) unknowns.push_back(layout.loads.first + i);
    return unknowns;
}

bool add_source_slopes(const Base& base, const Estimate& estimate, Matrix& priors) {
    Estimate moved = estimate;
    for (const std::size_t unknown : priors_of_sources(base)) {
        moved.priors[unknown] += prior_step;
        const auto change =
            slope(base, estimated_sources(base.model, moved, base.condition), base.resistances, prior_step);
        moved.priors[unknown] = estimate.priors[unknown];
        if (!change) return false;
        add(*change, priors.column(unknown));
    }
    return true;
}

bool add_condition(const MeasurementModel& model, const Estimate& estimate, std::size_t condition,
                   const std::vector<Resistance>& resistances, Slopes& slopes) {
    SourceState sources = estimated_sources(model, estimate, condition);
    auto solution = solve(model.circuit, model.conditions[condition].condition, sources, resistances);
    if (!solution) return false;
    Vector shown = shown_in(model, condition, *solution, resistances);
    const Base base{model, condition, std::move(sources), resistances, std::move(*solution), std::move(shown)};
    for (std::size_t branch = 0; branch < model.circuit.branches.size(); ++branch)
        for (const Side side : {Side::out, Side::back})
            if (!add_side_slopes(base, branch, side, slopes.elements)) return false;
    return add_source_slopes(base, estimate, slopes.priors);
}

/// How the measurements follow the magnitude of a fault.
void put_fault(const CircuitModel& circuit, const CircuitFault& fault, const Matrix& elements,
               std::span<double> column) {
    if (is_gross_error(fault)) {
        column[fault.index] = 1.0;
    } else if (fault.kind == FaultKind::gauge) {
        for (const std::size_t element : circuit.branches[fault.index].elements)
            if (circuit.elements[element].is_cable())
                add_times(in_milliohms(circuit.elements[element].expected), elements.column(element), column);
    } else {
        add_times(1.0, elements.column(fault.index), column);
    }
}

void divide_by_uncertainties(const MeasurementModel& model, Matrix& slopes) {
    for (std::size_t i = 0; i < slopes.rows(); ++i) {
        const double uncertainty = model.measurements[i].uncertainty.number();
        for (std::size_t column = 0; column < slopes.columns(); ++column) slopes(i, column) /= uncertainty;
    }
}

}  // namespace

std::optional<Jacobian> jacobian(const MeasurementModel& model, const Estimate& estimate,
                                 const std::vector<CircuitFault>& faults, const std::vector<CircuitFault>& wanted) {
    const CircuitModel& circuit = model.circuit;
    const std::vector<Resistance> resistances = estimated_resistances(model, estimate, faults);
    const std::size_t rows = model.measurements.size();
    Slopes slopes{Matrix(rows, model.layout.count()), Matrix(rows, circuit.elements.size())};
    for (std::size_t i = 0; i < model.conditions.size(); ++i)
        if (!add_condition(model, estimate, i, resistances, slopes)) return {};
    for (std::size_t i = 0; i < circuit.elements.size(); ++i)
        add_times(in_milliohms(circuit.elements[i].deviation), slopes.elements.column(i),
                  slopes.priors.column(model.layout.of_element[i]));
    Jacobian answer{std::move(slopes.priors), Matrix(rows, wanted.size())};
    for (std::size_t h = 0; h < wanted.size(); ++h)
        put_fault(circuit, wanted[h], slopes.elements, answer.magnitudes.column(h));
    divide_by_uncertainties(model, answer.priors);
    divide_by_uncertainties(model, answer.magnitudes);
    return answer;
}

}  // namespace voltwright

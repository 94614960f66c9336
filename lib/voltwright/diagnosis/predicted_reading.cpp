#include "voltwright/diagnosis/predicted_reading.hpp"

namespace voltwright {

namespace {

/// Against the negative post of the battery that the point hangs on.
Voltage potential(const Solution& solution, const Probe::Point& point) {
    using At = Probe::Point::At;
    switch (point.at) {
        case At::starter: return point.plus ? solution.starter : Voltage{};
        case At::house: return point.plus ? solution.house : Voltage{};
        case At::output: return point.plus ? solution.output_plus : solution.output_minus;
        case At::branch: return point.plus ? solution.plus[point.branch] : solution.minus[point.branch];
    }
    return {};
}

}  // namespace

MeterValue predicted_reading(const CircuitModel& model, const Probe& probe, const Solution& solution,
                             std::span<const Resistance> resistances) {
    if (const auto* through = std::get_if<Probe::Through>(&probe.what)) return solution.current[through->branch];
    if (const auto* over = std::get_if<Probe::Over>(&probe.what))
        return Voltage(solution.current[model.elements[over->element].branch] * resistances[over->element]);
    const auto& between = std::get<Probe::Between>(probe.what);
    return Voltage(potential(solution, between.red) - potential(solution, between.black));
}

MeterValue predicted_note(const CircuitModel& model, const Probe& probe, const Solution& solution,
                          std::span<const Resistance> resistances) {
    const MeterValue value = predicted_reading(model, probe, solution, resistances);
    return probe.drop() ? value.size() : value;
}

}  // namespace voltwright

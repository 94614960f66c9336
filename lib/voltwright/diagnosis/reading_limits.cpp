#include "voltwright/diagnosis/reading_limits.hpp"

#include "voltwright/diagnosis/reading_uncertainty.hpp"
#include "voltwright/planning/plan.hpp"

#include <algorithm>

namespace voltwright {

namespace {

using At = Probe::Point::At;

/// A limit is passed by three standard deviations: a sound vehicle has a score or two of readings, and of them hardly one
/// may be called wrong (3 in 1000 each, of the normal distribution).
constexpr double standard_deviations = 3.0;

/// Bounds on either side of what is expected.
std::optional<ReadingLimits> limits_on_both_sides(const SoundVehicle& sound, const Probe& probe,
                                                  const TestCondition& condition) {
    const auto all = expected_reading(sound, probe, condition);
    if (!all) return {};
    const MeterValue size = all->value.size(), tolerance = standard_deviations * all->deviation;
    return ReadingLimits{.expected = size,
                         .tolerance = tolerance,
                         .least = std::max(size - tolerance, size.of_same_unit(0.0)),
                         .most = size + tolerance,
                         .at = {}};
}

/// Does a load that is on draw through a branch? The charger through its two runs.
bool carries(const CircuitModel& model, std::size_t branch, const TestCondition& condition) {
    if (model.is_chargers(branch)) return condition.charger_runs();
    return std::any_of(model.loads.begin(), model.loads.end(), [&](const CircuitLoad& load) {
        return condition.is_on(load) && model.leads_through(branch, load.branch);
    });
}

std::optional<ReadingLimits> limits_of_current(const SoundVehicle& sound, std::size_t branch, const Probe& probe,
                                               const TestCondition& condition) {
    if (!carries(sound.model, branch, condition))
        return ReadingLimits{
            .expected = Current{}, .tolerance = {}, .least = {}, .most = most_asleep(sound.meter), .at = {}};
    auto limits = limits_on_both_sides(sound, probe, condition);
    // A charger may hold back while the engine idles.
    if (limits && condition.engine == Engine::idling && sound.model.is_chargers(branch)) limits->least = {};
    return limits;
}

/// What the battery has at least while its loads, if any, are off.
Voltage least_at_battery(const BatteryLimits& batteries, bool starter, bool charged) {
    if (starter) return charged ? batteries.starter_charged : batteries.starter_rested;
    return charged ? batteries.house_charging : batteries.house_rested;
}

/// At the charger's output: what is lost on the way to the battery comes on top of what the battery has.
void limit_output(const SoundVehicle& sound, const TestCondition& condition, bool charged, ReadingLimits& limits) {
    if (!charged) {
        limits.least = fed_least;
        return;
    }
    if (const auto lost = loop_drop(sound, *sound.model.output, condition)) limits.most = *limits.most + lost->most;
}

/// A battery that is just good enough for the test, and all that may be lost on the way to where its loads run.
Voltage least_under_load(const SoundVehicle& sound, const Probe::Point& point, Voltage at_battery) {
    Voltage lost = loads_sag;
    if (point.at == At::branch) {
        const RunPlan& run = sound.plan.runs[sound.model.branches[point.branch].plan_run];
        lost = in_ratio(*run.task.supply.drop_limit) * nominal_voltage;
    }
    return at_battery - lost;
}

/// Volts from plus to minus at a place.
std::optional<ReadingLimits> limits_of_place(const SoundVehicle& sound, const Probe::Point& point, const Probe& probe,
                                             const TestCondition& condition) {
    const auto expected = predicted_reading(sound, probe, condition);
    if (!expected) return {};
    ReadingLimits limits{.expected = expected->size(), .tolerance = {}, .least = {}, .most = {}, .at = {}};
    const bool on_branch = point.at == At::branch;
    const bool starter = point.at == At::starter || (on_branch && sound.model.branches[point.branch].by_starter);
    const bool charged = starter ? condition.charging() : condition.charger_runs();
    const Voltage at_battery = least_at_battery(sound.batteries, starter, charged);
    limits.least = at_battery;
    if (charged) limits.most = starter ? sound.batteries.starter_highest : sound.batteries.house_highest;
    if (point.at == At::output)
        limit_output(sound, condition, charged, limits);
    else if (on_branch && point.branch == sound.model.feed && condition.charger_runs())
        limits.least = Voltage(sound.system.charger.input_off + input_margin);
    else if (!condition.with.empty())
        limits.least = least_under_load(sound, point, at_battery);
    else if (on_branch && !charged)
        limits.least = fed_least;
    return limits;
}

/// A drop that is too small proves no fault; what flows decides that.
std::optional<ReadingLimits> limits_of_drop(const SoundVehicle& sound, const Probe& probe,
                                            const TestCondition& condition) {
    auto limits = limits_on_both_sides(sound, probe, condition);
    if (!limits || !(limits->expected > Voltage{})) return {};
    limits->least = {};
    if (const auto branch = measured_branch(sound.model, probe))
        if (const auto current = predicted_reading(sound, Probe{Probe::Through{*branch}}, condition))
            limits->at = current->current();
    return limits;
}

}  // namespace

std::optional<MeterValue> ReadingLimits::passed_by(const MeterValue& reading) const {
    const MeterValue size = reading.size();
    if (most && size > *most) return most;
    if (least && size < *least) return least;
    return {};
}

std::optional<ReadingLimits> reading_limits(const SoundVehicle& sound, const Probe& probe,
                                            const TestCondition& condition) {
    if (const auto* through = std::get_if<Probe::Through>(&probe.what))
        return limits_of_current(sound, through->branch, probe, condition);
    if (probe.drop()) return limits_of_drop(sound, probe, condition);
    // Of two leads the one that is further from the battery.
    const auto& [red, black] = std::get<Probe::Between>(probe.what);
    const bool at_red = black.at != At::branch || (red.at == At::branch && red.branch >= black.branch);
    return limits_of_place(sound, at_red ? red : black, probe, condition);
}

std::optional<LoopDrop> loop_drop(const SoundVehicle& sound, std::size_t branch, const TestCondition& condition) {
    if (!carries(sound.model, branch, condition)) return {};
    const Branch& run = sound.model.branches[branch];
    Voltage expected{}, tolerance{};
    for (const char* pole : {" +", " -"}) {
        const auto probe = probe_across(sound.model, {run.near + pole, run.far + pole});
        const auto side = probe ? limits_on_both_sides(sound, *probe, condition) : std::nullopt;
        if (!side) return {};
        expected += side->expected.voltage();
        tolerance += side->tolerance->voltage();
    }
    const auto current = predicted_reading(sound, Probe{Probe::Through{branch}}, condition);
    return LoopDrop{expected, expected + tolerance, current ? current->current() : Current{}};
}

bool is_on_source_of(const CircuitModel& model, const Probe& probe, std::size_t branch) {
    const auto* between = std::get_if<Probe::Between>(&probe.what);
    const At post = model.branches[branch].by_starter ? At::starter : At::house;
    return between && !probe.drop() && between->red.at == post && between->black.at == post;
}

}  // namespace voltwright

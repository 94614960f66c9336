#include "voltwright/diagnosis/run_readings.hpp"

#include <utility>

namespace voltwright {

PlannedReading reading_of(Stage stage, Proves proves, MeterRange range, const std::string& run) {
    return {.id = {}, .stage = stage, .proves = proves, .run = run, .range = range};
}

std::optional<ReadingLimits> limits_at(const SoundVehicle& sound, const PlannedReading& reading,
                                       const TestCondition& condition) {
    const auto probe = reading.through.empty() ? probe_across(sound.model, reading.across)
                                               : probe_through(sound.model, reading.through);
    return probe ? reading_limits(sound, *probe, condition) : std::nullopt;
}

namespace {

/// Fills in what is expected, and the range of the meter. False where nothing can be.
bool complete(const SoundVehicle& sound, PlannedReading& reading, const TestCondition& condition) {
    const auto limits = limits_at(sound, reading, condition);
    if (!limits || !limits->tolerance) return false;
    reading.expected = limits->expected.measure();
    reading.tolerance = limits->tolerance->measure();
    if (limits->least) reading.least = limits->least->measure();
    if (limits->most) reading.most = limits->most->measure();
    reading.range = range_of(limits->expected);
    return true;
}

/// The joints of one side, in case its drop is not right.
void add_joints(const SoundVehicle& sound, const Branch& run, Side side, const PlannedReading& drop,
                const TestCondition& condition, std::vector<PlannedReading>& all) {
    for (const std::size_t element : run.elements) {
        const Element& one = sound.model.elements[element].element;
        if (one.side != side || one.kind == Element::Kind::cable || one.kind == Element::Kind::body) continue;
        PlannedReading joint = reading_of(drop.stage, Proves::joint, MeterRange::millivolts, drop.run);
        joint.with = drop.with;
        joint.across = {one.name};
        joint.in_doubt = true;
        joint.at = drop.at;
        if (complete(sound, joint, condition)) all.push_back(std::move(joint));
    }
}

PlannedReading drop_of_side(const Branch& run, Side side, const PlannedReading& current) {
    const bool out = side == Side::out;
    const std::string pole = out ? " +" : " -";
    PlannedReading drop =
        reading_of(current.stage, out ? Proves::plus_side : Proves::minus_side, MeterRange::millivolts, run.run);
    drop.with = current.with;
    // The red lead where the potential is higher: the current goes from there to the black one.
    drop.across = {run.near + pole, run.far + pole};
    if (!out) std::swap(drop.across[0], drop.across[1]);
    drop.at = std::get<Current>(*current.expected);
    return drop;
}

}  // namespace

std::vector<PlannedReading> readings_under_load(const SoundVehicle& sound, std::size_t branch,
                                                const TestCondition& condition, Stage stage) {
    const Branch& run = sound.model.branches[branch];
    PlannedReading current = reading_of(stage, Proves::current, MeterRange::amperes, run.run);
    current.with = condition.with;
    current.through = run.run;
    if (!complete(sound, current, condition)) return {};
    std::vector<PlannedReading> all = {current};
    for (const Side side : {Side::out, Side::back}) {
        PlannedReading drop = drop_of_side(run, side, current);
        if (!complete(sound, drop, condition)) continue;
        all.push_back(drop);
        add_joints(sound, run, side, drop, condition, all);
    }
    return all;
}

MeterRange range_of(const MeterValue& value) {
    if (value.is_current()) return MeterRange::amperes;
    return value.voltage() <= Meter::millivolt_range ? MeterRange::millivolts : MeterRange::volts;
}

}  // namespace voltwright

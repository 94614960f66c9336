#include "voltwright/diagnosis/screening.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// A sound vehicle has less than this across what no current flows through, and through what a clamp is around.
constexpr double nothing_flows_below = 1e-9;
/// Beside what a meter is off, a drop shows something where it has more than the last figures that wander.
constexpr Voltage last_figures = volts(0.005);

/// A vehicle without faults, with its sources as the screening has found them.
struct SourcesAsRead {
    const SoundVehicle& sound;
    const ScreenedMeasurements& screened;
};

/// In the condition of one measurement: the charger idle and batteries unusual where a reading in it says so.
SourceState sources_of(const SourcesAsRead& as_read, const TestCondition& condition) {
    SourceState sources = usual_sources(as_read.sound, condition);
    for (const ScreenedMeasurement& one : as_read.screened.usable) {
        if (!(one.measurement.condition == condition)) continue;
        if (one.charger_idle) sources.charge = Current{};
        if (!one.battery_as_read) continue;
        const Voltage shown = one.measurement.value.size().voltage();
        (at_posts(one.measurement, Battery::starter) ? sources.starter : sources.house) = shown;
    }
    return sources;
}

/// Does no current flow through what a reading is across or around, as far as is known?
bool carries_nothing(const SourcesAsRead& as_read, const Measurement& measurement) {
    if (!measurement.probe.drop() && !measurement.probe.clamp()) return false;
    const SoundVehicle& sound = as_read.sound;
    const auto solution =
        solve(sound.model, measurement.condition, sources_of(as_read, measurement.condition), sound.resistances);
    if (!solution) return false;
    const MeterValue shown = predicted_reading(sound.model, measurement.probe, *solution, sound.resistances);
    return shown.size().number() < nothing_flows_below;
}

/// More than a meter is off by, or sleeping electronics take, where nothing should be.
bool shows_something(const Measurement& measurement, const Meter& meter) {
    if (measurement.probe.clamp()) return measurement.value > MeterValue(most_asleep(meter));
    return measurement.value > surely * measurement.uncertainty + MeterValue(last_figures);
}

/// The charger's own runs have their own anomalies, and its sleep is not for a load to explain.
bool clamps_charger(const CircuitModel& model, const Probe& probe) {
    const auto* through = std::get_if<Probe::Through>(&probe.what);
    return through && model.is_chargers(through->branch);
}

/// What is taken out of the measurements.
struct TakenOut {
    std::vector<bool> measurements;
    std::vector<TestCondition> conditions;  ///< in which something flows where nothing is on

    [[nodiscard]] bool in_doubt(const TestCondition& condition) const {
        return std::find(conditions.begin(), conditions.end(), condition) != conditions.end();
    }
};

void tell_idle_reading(ScreenedMeasurements& screened, const Measurement& told, Anomaly::Kind kind) {
    screened.anomalies.push_back({.kind = kind, .measurement = told.number, .found = told.value.measure()});
}

void check_measurement(const SoundVehicle& sound, ScreenedMeasurements& screened, std::size_t i, TakenOut& out) {
    Measurement& told = screened.usable[i].measurement;
    if (!carries_nothing({sound, screened}, told)) return;
    const bool something = !clamps_charger(sound.model, told.probe) && shows_something(told, sound.meter);
    if (told.probe.clamp() && !something) {
        // What sleeps may take that much.
        const MeterValue asleep(Current(most_asleep(sound.meter) / nineteen_in_twenty));
        told.uncertainty = std::max(told.uncertainty, asleep);
        return;
    }
    out.measurements[i] = true;
    if (!something) {
        tell_idle_reading(screened, told, Anomaly::Kind::no_current);
    } else if (!out.in_doubt(told.condition)) {
        // Once for each condition.
        out.conditions.push_back(told.condition);
        tell_idle_reading(screened, told, Anomaly::Kind::unexpected_current);
    }
}

}  // namespace

void take_out_idle(const SoundVehicle& sound, ScreenedMeasurements& screened) {
    TakenOut out{std::vector<bool>(screened.usable.size()), {}};
    for (std::size_t i = 0; i < screened.usable.size(); ++i) check_measurement(sound, screened, i, out);
    std::vector<ScreenedMeasurement> kept;
    for (std::size_t i = 0; i < screened.usable.size(); ++i)
        if (!out.measurements[i] && !out.in_doubt(screened.usable[i].measurement.condition))
            kept.push_back(std::move(screened.usable[i]));
    screened.usable = std::move(kept);
}

}  // namespace voltwright

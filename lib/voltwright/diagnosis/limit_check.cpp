#include "voltwright/diagnosis/reading_limits.hpp"
#include "voltwright/diagnosis/screening.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// Of two readings that are too low the one with less is the worse; nothing is less than this.
constexpr double least_that_is_compared = 1e-3;

/// Does an anomaly already tell of this reading, or of what makes it pass its limit?
bool accounts_for(const Anomaly& anomaly, const Measurement& told_by, const Measurement& measurement, bool above) {
    if (!anomaly.grave()) return false;
    if (anomaly.measurement == measurement.number) return true;
    if (above || !(told_by.condition == measurement.condition)) return false;
    // A battery that is not charged, or a charger that does nothing, leaves all behind it low.
    return anomaly.kind == Anomaly::Kind::not_charged || anomaly.kind == Anomaly::Kind::charger_idle ||
           anomaly.kind == Anomaly::Kind::low_battery;
}

bool is_accounted_for(const std::vector<Anomaly>& anomalies, const std::vector<Measurement>& measurements,
                      const Measurement& measurement, bool above) {
    return std::any_of(anomalies.begin(), anomalies.end(), [&](const Anomaly& anomaly) {
        const auto told_by = std::find_if(measurements.begin(), measurements.end(),
                                          [&](const Measurement& one) { return one.number == anomaly.measurement; });
        return told_by != measurements.end() && accounts_for(anomaly, *told_by, measurement, above);
    });
}

bool tells_of_a_break(const Anomaly& anomaly) {
    return anomaly.kind == Anomaly::Kind::open_circuit || anomaly.kind == Anomaly::Kind::nothing_arrives ||
           anomaly.kind == Anomaly::Kind::nothing_flows;
}

/// What was read beside it: the current that goes with a drop, the battery that feeds a place.
void add_what_was_read_beside(const SoundVehicle& sound, const std::vector<Measurement>& measurements,
                              const Measurement& measurement, Anomaly& anomaly) {
    const auto branch = measured_branch(sound.model, measurement.probe);
    for (const Measurement& other : measurements) {
        if (!(other.condition == measurement.condition)) continue;
        const auto* through = std::get_if<Probe::Through>(&other.probe.what);
        if (through && anomaly.drop && branch == through->branch) anomaly.flows = other.value.current();
        if (!anomaly.drop && branch && is_on_source_of(sound.model, other.probe, *branch)) anomaly.source_known = true;
    }
}

/// By how much a limit is passed, as a ratio.
struct Beyond {
    double ratio;
    Anomaly anomaly;
};

Beyond beyond_of(const SoundVehicle& sound, const std::vector<Measurement>& measurements,
                 const Measurement& measurement, const ReadingLimits& limits, const MeterValue& limit) {
    const MeterValue size = measurement.value.size();
    const bool above = size > limit;
    const auto branch = measured_branch(sound.model, measurement.probe);
    Anomaly anomaly{.kind = Anomaly::Kind::beyond_limit,
                    .measurement = measurement.number,
                    .run = branch ? sound.model.branches[*branch].run : std::string(),
                    .found = size.measure(),
                    .leads = names_of(sound.model, measurement.probe),
                    .limit = limit.measure(),
                    .at = limits.at,
                    .above = above,
                    .drop = measurement.probe.drop(),
                    .nothing_on = measurement.probe.clamp() && !(limits.expected.number() > 0.0),
                    .charging = measurement.condition.charger_runs()};
    add_what_was_read_beside(sound, measurements, measurement, anomaly);
    const double ratio = above ? size / limit : limit.number() / std::max(size.number(), least_that_is_compared);
    return {ratio, std::move(anomaly)};
}

}  // namespace

std::vector<Anomaly> beyond_limits(const SoundVehicle& sound, const std::vector<Measurement>& measurements,
                                   const ScreenedMeasurements& screened) {
    const bool broken = std::any_of(screened.anomalies.begin(), screened.anomalies.end(), tells_of_a_break);
    std::vector<Beyond> found;
    for (const Measurement& measurement : measurements) {
        const auto limits = reading_limits(sound, measurement.probe, measurement.condition);
        const auto limit = limits ? limits->passed_by(measurement.value) : std::nullopt;
        if (!limit) continue;
        const bool usable =
            std::any_of(screened.usable.begin(), screened.usable.end(),
                        [&](const ScreenedMeasurement& one) { return one.measurement.number == measurement.number; });
        // What lies behind a break was told with it.
        if (broken && !usable) continue;
        if (is_accounted_for(screened.anomalies, measurements, measurement, measurement.value.size() > *limit))
            continue;
        found.push_back(beyond_of(sound, measurements, measurement, *limits, *limit));
    }
    std::stable_sort(found.begin(), found.end(), [](const Beyond& a, const Beyond& b) { return a.ratio > b.ratio; });
    std::vector<Anomaly> anomalies;
    for (Beyond& one : found) anomalies.push_back(std::move(one.anomaly));
    return anomalies;
}

}  // namespace voltwright

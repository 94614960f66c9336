#include "voltwright/diagnosis/measurement.hpp"

#include "voltwright/diagnosis/meter.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// A drop below zero by more than this many standard uncertainties was taken with the leads the other way round.
constexpr double surely_below_zero = 2.0;

std::optional<Probe> probe_of(const CircuitModel& model, const NotedReading& noted) {
    return noted.across ? probe_across(model, *noted.across) : probe_through(model, *noted.through);
}

std::optional<MeterValue> value_of(const NotedReading& noted) {
    if (noted.across) return noted.voltage ? std::optional<MeterValue>(noted.voltage->value) : std::nullopt;
    return noted.current ? std::optional<MeterValue>(noted.current->value) : std::nullopt;
}

/// What the profile says that the reading may be off, 19 times in 20; zero where it says nothing.
MeterValue own_half_width(const NotedReading& noted) {
    if (noted.across) return noted.voltage->half_width;
    return noted.current->half_width;
}

MeterValue uncertainty_of(const NotedReading& noted, const MeterValue& value, const Meter& meter) {
    const MeterValue own = own_half_width(noted);
    const MeterValue uncertainty =
        own.number() > 0.0 ? own.of_same_unit(own.number() / nineteen_in_twenty) : meter.uncertainty(value);
    return std::max(uncertainty, Meter::finest(value));
}

TestCondition condition_of(const NotedReading& noted) {
    TestCondition condition{noted.engine, noted.with, noted.charger_off};
    std::sort(condition.with.begin(), condition.with.end());
    return condition;
}

}  // namespace

std::vector<Measurement> measurements_of(const CircuitModel& model, const System& system,
                                         std::vector<Anomaly>& anomalies) {
    const Meter meter = meter_of(system.meter);
    std::vector<Measurement> measurements;
    for (std::size_t i = 0; i < system.readings.size(); ++i) {
        const NotedReading& noted = system.readings[i];
        if (!noted.across && !noted.through) continue;
        const auto probe = probe_of(model, noted);
        auto value = value_of(noted);
        if (!probe || !value) {
            anomalies.push_back({.kind = Anomaly::Kind::not_understood, .measurement = i});
            continue;
        }
        if (probe->drop() && -*value > surely_below_zero * meter.uncertainty(*value))
            anomalies.push_back({.kind = Anomaly::Kind::leads_swapped, .measurement = i, .found = value->measure()});
        if (probe->drop() || probe->clamp()) value = value->size();
        measurements.push_back({.number = i,
                                .probe = *probe,
                                .condition = condition_of(noted),
                                .value = *value,
                                .uncertainty = uncertainty_of(noted, *value, meter)});
    }
    return measurements;
}

}  // namespace voltwright

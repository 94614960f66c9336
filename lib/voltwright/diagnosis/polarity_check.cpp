#include "voltwright/diagnosis/screening_state.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// Below this a meter's leads, or the poles, are the wrong way round: it is no last figure of a meter.
constexpr Voltage reversed = volts(-1.0);
/// A 24 V vehicle, flat or charged: twice 11 V and twice 15 V.
constexpr Voltage least_of_24 = volts(22.0), most_of_24 = volts(30.0);

/// 24 V: not where another reading on the same battery shows what a 12 V one has.
bool is_of_24_volts(const Evidence& evidence, const Measurement& told) {
    const Voltage there = plus_to_minus(told).value_or(Voltage{});
    const Battery battery = on_circuit_of(evidence, told, Battery::starter) ? Battery::starter : Battery::house;
    return there >= least_of_24 && there <= most_of_24 &&
           std::none_of(evidence.measurements.begin(), evidence.measurements.end(), [&](const Measurement& other) {
               const Voltage other_there = plus_to_minus(other).value_or(Voltage{});
               return on_circuit_of(evidence, other, battery) && other_there >= alive_from &&
                      other_there < impossible_voltage;
           });
}

std::optional<Anomaly::Kind> kind_of(const Evidence& evidence, const Measurement& told) {
    if (told.probe.clamp()) return {};
    const auto there = plus_to_minus(told);
    // A drop has no poles, but no more than its battery either.
    const MeterValue most = there ? MeterValue(*there).size() : told.value.size();
    if (most >= impossible_voltage)
        return is_of_24_volts(evidence, told) ? Anomaly::Kind::other_voltage : Anomaly::Kind::impossible;
    if (there && *there < reversed) return Anomaly::Kind::poles_swapped;
    return {};
}

}  // namespace

void check_polarity(ScreeningState& state) {
    for (std::size_t i = 0; i < state.measurements().size(); ++i) {
        const Measurement& told = state.measurements()[i];
        const auto kind = kind_of(state.evidence, told);
        if (!kind) continue;
        const auto there = plus_to_minus(told);
        state.anomalies.push_back({.kind = *kind,
                                   .measurement = told.number,
                                   .places = there ? places_of(state.model(), told.probe) : std::vector<std::string>{},
                                   .found = there ? Measure{*there} : told.value.measure()});
        state.finished[i] = true;
    }
}

}  // namespace voltwright

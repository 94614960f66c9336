#pragma once

#include "voltwright/diagnosis/anomaly.hpp"
#include "voltwright/diagnosis/meter_value.hpp"
#include "voltwright/diagnosis/probe.hpp"
#include "voltwright/diagnosis/test_condition.hpp"

#include <cstddef>
#include <vector>

namespace voltwright {

/// What a meter showed at one place, while something was going on.
struct Measurement {
    std::size_t number;  ///< of the `[[reading]]`, from 0
    Probe probe;
    TestCondition condition;
    MeterValue value;        ///< a drop and a clamp's without a sign: leads and clamp may be either way round
    MeterValue uncertainty;  ///< one standard uncertainty
};

/// The `[[reading]]` tables of the profile, but those that count charge or time; with an anomaly for what cannot be used.
std::vector<Measurement> measurements_of(const CircuitModel& model, const System& system,
                                         std::vector<Anomaly>& anomalies);

}  // namespace voltwright

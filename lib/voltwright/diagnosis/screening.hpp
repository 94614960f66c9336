#pragma once

#include "voltwright/diagnosis/anomaly.hpp"
#include "voltwright/diagnosis/evidence.hpp"
#include "voltwright/diagnosis/proposed_reading.hpp"

#include <optional>
#include <vector>

/// What readings tell by themselves, before anything is estimated.
namespace voltwright {

/// A measurement that is left for the estimator.
struct ScreenedMeasurement {
    Measurement measurement;       ///< what lies behind an open place counts as switched off
    bool charger_idle = false;     ///< the charger does nothing in its condition
    bool battery_as_read = false;  ///< its battery stands at this voltage, unusual as it is
};

struct ScreenedMeasurements {
    std::vector<Anomaly> anomalies;
    std::vector<ScreenedMeasurement> usable;
    std::optional<ProposedReading> next;  ///< halves the way in which something is open
};

/// An open place has the whole voltage of its battery across it, and nothing flows: 10 V or more, or half a volt where a
/// clamp shows nothing (common practice, no source). What has no volts across it then is sound, and so is all that brings
/// 10 V or more to a place; a place with less than 6 V has the break before it.
ScreenedMeasurements screen(const SoundVehicle& sound, const std::vector<Measurement>& measurements);

/// Takes out what tells nothing of joints, because nothing flows there; and with it, what was read beside such a one that
/// shows that something does.
void take_out_idle(const SoundVehicle& sound, ScreenedMeasurements& screened);

/// Every reading past its limit that no anomaly of the screening accounts for, by how much the worst first.
std::vector<Anomaly> beyond_limits(const SoundVehicle& sound, const std::vector<Measurement>& measurements,
                                   const ScreenedMeasurements& screened);

}  // namespace voltwright

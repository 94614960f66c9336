#pragma once

#include "voltwright/diagnosis/anomaly.hpp"
#include "voltwright/diagnosis/fault.hpp"
#include "voltwright/diagnosis/meter_value.hpp"
#include "voltwright/diagnosis/planned_reading.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// What may be wrong, by its name in the vehicle, and how wrong it is.
struct FaultCandidate {
    FaultKind kind;
    std::string run = {};                         ///< empty for a gross error
    std::string element = {};                     ///< "feed lug at charger +"; empty for a gauge and a gross error
    std::optional<std::size_t> measurement = {};  ///< of a gross error, its number from 0
    std::optional<Resistance> extra = {};         ///< more than it should have
    std::optional<Resistance> uncertainty = {};   ///< the truth is within it 19 times in 20
    std::optional<Power> heat = {};               ///< that the extra resistance makes at `at`
    std::optional<Current> at = {};               ///< the most that flowed while it was measured
    std::optional<Gauge> looks_like = {};         ///< of a gauge: the size that is nearest
    bool fuse = false;                            ///< of a joint: a fuse with its holder
    bool identified = false;                      ///< it stands out from the others
    bool too_little = false;  ///< of a gross error: a drop that is less than cable and joints must lose
    double odds = 1.0;        ///< against the first of its kind, 1 for that
};

/// One reading beside what a vehicle without faults would show. All in one unit.
struct Comparison {
    std::size_t measurement;  ///< its number, from 0
    MeterValue shown, expected;
    MeterValue tolerance;  ///< 19 times in 20
    MeterValue explained;  ///< with the faults that were found
    bool beyond = false;   ///< past the limit of the test plan, which then is what is expected

    [[nodiscard]] bool as_it_should() const {
        return !beyond && shown >= expected - tolerance && shown <= expected + tolerance;
    }
};

enum class Verdict {
    too_little,     ///< nothing was read that a joint could show in
    nothing_wrong,  ///< all is within what meter and parts may be off
    told_by_one,    ///< a reading tells by itself what is wrong: a grave anomaly; nothing else explains it
    found,          ///< the identified faults explain it
    several,        ///< something is wrong, and more than one thing explains it
    contradiction,  ///< no fault of these explains it
};

struct Diagnosis {
    Verdict verdict = Verdict::too_little;
    std::vector<FaultCandidate> candidates = {};  ///< most likely first
    std::vector<Anomaly> anomalies = {};
    std::vector<Comparison> comparisons = {};
    std::optional<PlannedReading> next = {};  ///< what would tell the first two apart, or where the way is open

    /// Do its faults say what is wrong?
    [[nodiscard]] bool names_faults() const { return verdict == Verdict::found || verdict == Verdict::several; }
};

}  // namespace voltwright

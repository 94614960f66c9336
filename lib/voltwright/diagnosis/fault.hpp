#pragma once

#include "voltwright/diagnosis/circuit_model.hpp"

#include <cstddef>
#include <vector>

namespace voltwright {

enum class FaultKind {
    joint,        ///< a lug, plug, switch, fuse or holder has more resistance than it should
    cable,        ///< one conductor has: strands broken, corroded, or far longer than planned
    gauge,        ///< both conductors of a run have, in proportion: a thinner cable than planned
    body,         ///< the return through the body has
    gross_error,  ///< a reading fits no other: read, noted or probed wrongly
};

/// One thing that may be wrong.
struct CircuitFault {
    FaultKind kind;
    std::size_t index;  ///< of the element; of a gauge the branch; of a gross error the measurement

    friend bool operator==(const CircuitFault&, const CircuitFault&) = default;
};

inline bool is_gross_error(const CircuitFault& fault) { return fault.kind == FaultKind::gross_error; }

/// All that may be wrong with a circuit and what was measured of it.
std::vector<CircuitFault> possible_faults(const CircuitModel& circuit, std::size_t measurements);

/// The branch that a fault lies in. Not of a gross error.
std::size_t branch_of(const CircuitModel& circuit, const CircuitFault& fault);

/// How much likelier than a bad joint, as a logarithm. Common practice, no source: joints fail most, then fuses and their
/// holders; a conductor seldom fails along its way.
double prior_log_odds(const CircuitModel& circuit, const CircuitFault& fault);

}  // namespace voltwright

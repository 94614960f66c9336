#pragma once

#include "voltwright/diagnosis/fault_fit.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace voltwright {

/// A fit and how likely it is beside others, as a logarithm.
struct RankedFit {
    FaultFit fit;
    double log_weight;
};

/// One step of the search: fits with one fault more, or with two, the likeliest first.
using SearchStep = std::vector<RankedFit>;

/// The single faults that explain most beside those of a fit.
SearchStep one_more_fault(const MeasurementModel& model, const FaultFit& before);

/// Something else that it may be: one fault of a fit.
struct Alternative {
    FaultFit fit;
    std::size_t fault;  ///< among the fit's
    double odds;        ///< against the likeliest, 1 for that
};

/// What was found.
struct FoundFaults {
    FaultFit best;
    std::vector<bool> identified = {};  ///< of each of its faults: it stands out from the others
    std::vector<Alternative> alternatives = {};
    std::optional<SearchStep> open = {};  ///< what one more reading should tell apart
};

/// The faults that explain the measurements best: one after the other, each that which explains most of the rest; and where
/// these do not explain everything, or a gross error is among several, pairs at once. Empty when not even a circuit without
/// faults can be fitted.
std::optional<FoundFaults> search_faults(const MeasurementModel& model);

/// Rivals less likely than the best by more than this, as a logarithm, are told no more: a thousandth.
inline constexpr double far_behind = 7.0;

}  // namespace voltwright

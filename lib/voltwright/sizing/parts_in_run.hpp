#pragma once

#include "voltwright/sizing/candidate.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// A switch, relay or breaker whose rating is printed on it and not known here, and the least that it has to be.
struct UnratedPart {
    std::string part;
    Current at_least;
};

/// What has to be read on the parts of a run before they are bought: enough for the design current and for the fuses that
/// were taken, so that the fuse blows and not the part, and for half of the hardest start; the next rating that fuses are
/// sold in. Common practice, no source; the half: a sealed relay rated 45 A makes 100 A, and battery switches carry for a
/// minute 2.2 to 2.6 times what they carry for long (makers' sheets, read).
std::vector<UnratedPart> unrated_parts(const CableRun& run, const Candidate& candidate, Current design,
                                       const Tables& tables);

/// What one thing in a run turns into heat at the current that it carries for long, and the most that is sound.
///
///     P = I²·R
///
/// R   of one piece, as it usually is        the limit: one contact's, times the contacts that share the heat
/// Source: Joule's law; the limit is the table's.
struct JointHeat {
    std::string part;
    Power heat, limit;
    Source source;  ///< of the limit
};

/// Of those things in a run that are hotter than is sound, each named once; what is rated for less is not told again.
std::vector<JointHeat> hot_joints(const CableRun& run, const Candidate& candidate, Current design,
                                  const Tables& tables);

}  // namespace voltwright

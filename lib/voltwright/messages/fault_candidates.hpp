#pragma once

#include "voltwright/diagnosis/diagnosis.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// "joint", "gauge" …: its code in the answers.
std::string_view show(FaultKind kind);

/// "the feed lug at charger + has 38 ± 6 mOhm more than it should: at 28 A that heats 30 W into it"
std::string show(const FaultCandidate& candidate);

/// What to do about it.
std::string remedy_of(const FaultCandidate& candidate);

/// It is identified, and its heat melts it.
bool is_melting(const FaultCandidate& candidate);

/// One of those that are as likely as each other melts, whichever it is.
bool one_melts(const std::vector<FaultCandidate>& candidates);

/// So many times less likely than the first and still as good an explanation.
inline constexpr double about_as_likely = 0.3;

}  // namespace voltwright

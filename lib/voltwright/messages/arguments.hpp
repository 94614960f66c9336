#pragma once

#include "voltwright/planning/findings/finding.hpp"

#include <string>

namespace voltwright {

/// "starter battery", "house battery", "fuse block": a place as a sentence names it.
std::string place_in_words(const Place& place);

/// "50 A SF30 fuse at the starter battery"
std::string in_words(const NamedFuse& fuse);
/// "8 AWG, 105 degC", "its return of 16 AWG, 105 degC"
std::string in_words(const NamedCable& cable);

/// As a sentence says it.
std::string in_words(const Argument::Value& value);

}  // namespace voltwright

#pragma once

#include "voltwright/profile/key.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>

/// How a profile's sections and keys are named in a file that is written.
namespace voltwright {

/// Of a profile that is written, and of the reference of its keys.
inline constexpr Style profile_page{.colour = false, .unicode = true, .width = 100};

/// "default, by chemistry", "default: 2, or 1 with the body as return"
std::string default_words(const Key& key);

/// Prose in comments, each of its lines with its mark.
std::string comment(const std::string& words);

}  // namespace voltwright

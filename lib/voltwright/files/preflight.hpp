#pragma once

#include "voltwright/profile/entry.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace voltwright {

/// Something that a look through a text finds before it is read as TOML.
struct Slip {
    TextPlace place;
    std::string what, hint;
};

/// What it found.
struct Preflight {
    std::vector<Slip> slips;
    /// The byte from which on the text is no TOML, or its size.
    std::size_t sound_to = 0;
    /// Where comments stand: the byte of their #, and the one behind their last.
    std::vector<std::pair<std::size_t, std::size_t>> comments = {};
};

/// Looks through a profile's text, in UTF-8, for what the TOML reader would refuse without saying why, or would choke on:
/// a quantity or a word without quotes, a unit behind the closing quote, a character that may stand in quotes only, and
/// names or lists nested deeper than any profile needs. All there are up to the first place that is no TOML at all;
/// that one is the reader's to report.
Preflight preflight(std::string_view text);

}  // namespace voltwright

#pragma once

#include "voltwright/shopping/parts_list.hpp"
#include "voltwright/tables/tables.hpp"

#include <string>
#include <string_view>
#include <vector>

/// A parts list in plain words, the same on every page.
namespace voltwright {

/// "cable 6 AWG, 105 degC, red", "ring lug 6 AWG, hole for 8 mm"
std::string in_words(const Part& part);

/// The heading of a kind of part: "Cable", "Lugs".
std::string_view heading_of(PartKind kind);

/// "pack of 10", "roll of 10 m"; empty for what is sold by the piece or the metre.
std::string sold_in_words(const Part& part);

std::string in_words(const PartsNote& note);
std::vector<std::string> in_words(const std::vector<PartsNote>& notes);

/// By what a buyer tells cable that stands the sun on a roof. H1Z2Z2-K is the type of EN 50618, from memory, as is UL 4703.
inline constexpr std::string_view sun_cable_marks =
    "sun cable: \"EN 50618\", \"H1Z2Z2-K\" or \"UL 4703\" in its print; no other cable on the roof";

/// The marks by which a buyer tells cable of this class, and those that mislead: a line each.
std::vector<std::string> marks_in_words(Temperature insulation, const Tables& tables);

/// What has no price.
std::vector<std::string> unpriced_in_words(const PartsList& list);

}  // namespace voltwright

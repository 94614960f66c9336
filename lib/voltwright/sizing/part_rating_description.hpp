#pragma once

#include "voltwright/provenance/formula.hpp"
#include "voltwright/sizing/part_rating.hpp"

#include <string_view>
#include <tuple>

namespace voltwright {

template <>
struct Described<PartRating> {
    static constexpr Equation equation{"I = min(In, I0·fs·ft)",
                                       "makers' curves, from memory; a chart where one is published"};
    static constexpr auto result = &PartRating::rating;
    static std::string_view name(const PartRating& part) { return part.part; }
    static constexpr auto fields = std::tuple{
        field(&PartRating::part, "", "part"),
        field(&PartRating::printed, "In", "rating printed on it"),
        field(&PartRating::charted, "I0", "current in its maker's chart; without one In"),
        field(&PartRating::charted_at, "", "around it in that chart"),
        field(&PartRating::rated_area, "", "conductor with which that holds"),
        field(&PartRating::area, "", "conductor here"),
        field(&PartRating::around, "", "hottest surroundings"),
        field(&PartRating::by_size, "fs", "what the conductor's size leaves"),
        field(&PartRating::by_heat, "ft", "what the heat leaves"),
        field(&PartRating::rating, "I", "it may carry"),
    };
};

}  // namespace voltwright

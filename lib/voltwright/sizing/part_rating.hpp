#pragma once

#include "voltwright/reasons/formula.hpp"
#include "voltwright/tables/joints.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string>

namespace voltwright {

/// What a plug, a switch, a breaker or an in-line fuse holder in a run may carry for long, with that cable and where it is.
///
///     I = I_n·√(S/S_n)·√((105 °C − T)/(105 °C − 25 °C))        neither root above 1
///
/// I_n   printed on the part      S     area of its conductor      S_n   the area with which I_n holds
/// T     around it: the hottest of the run's way, of a holder where the fuse sits
///
/// A part is cooled through its cable: with a thin one it runs hotter. Its own heat goes with the square of the current,
/// and 105 °C is what usual housings stand. From memory: makers' curves for cable sizes run near the square root, with
/// the same part good for half of its rating on a quarter of the copper. Nothing at 105 °C.
struct PartRating {
    std::string part;
    Current printed;
    std::optional<Area> rated_area;
    Area area;
    Temperature around;
    Ratio by_size, by_heat;
    Current rating;

    /// The largest fuse before it: what it may carry with that cable, its surroundings left out, for they lower what the
    /// fuse holds as well.
    [[nodiscard]] Current largest_fuse() const { return printed * by_size; }
};

PartRating part_rating(std::string part, Current printed, std::optional<Area> rated_area, Area conductor,
                       Temperature around);

/// Empty for a part without a rating of its own.
std::optional<PartRating> part_rating(const JointRow& part, Area conductor, Temperature around);

template <>
struct Described<PartRating> {
    static constexpr Equation equation{"I = In·fs·ft", "makers' curves, from memory"};
    static constexpr auto result = &PartRating::rating;
    static std::string_view name(const PartRating& part) { return part.part; }
    static constexpr auto fields = std::tuple{
        field(&PartRating::part, "", "part"),
        field(&PartRating::printed, "In", "rating printed on it"),
        field(&PartRating::rated_area, "", "conductor with which that holds"),
        field(&PartRating::area, "", "conductor here"),
        field(&PartRating::around, "", "hottest surroundings"),
        field(&PartRating::by_size, "fs", "what the conductor's size leaves"),
        field(&PartRating::by_heat, "ft", "what the heat leaves"),
        field(&PartRating::rating, "I", "it may carry"),
    };
};

}  // namespace voltwright

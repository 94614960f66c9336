#pragma once

#include "voltwright/tables/joints.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string>

namespace voltwright {

/// What a plug, a switch, a breaker or an in-line fuse holder in a run may carry for long, with that cable and where it is.
///
///     I = min(I_n, I_0·√(S/S_n)·√((105 °C − T)/(105 °C − T_0)))        the first root not above 1
///
/// I_n   printed on the part      S     area of its conductor      S_n   the area with which I_0 holds
/// I_0   at T_0 in its maker's chart for that conductor; without a chart I_n, at 25 °C
/// T     around it: the hottest of the run's way, of a holder where the fuse sits
///
/// A part is cooled through its cable: with a thin one it runs hotter. Its own heat goes with the square of the current,
/// and 105 °C is what usual housings stand. From memory: makers' curves for cable sizes run near the square root, with
/// the same part good for half of its rating on a quarter of the copper. Nothing at 105 °C. A chart that a maker
/// publishes goes before that: his figures for cable sizes, and the printed rating where that is less.
struct PartRating {
    std::string part;
    Current printed;
    std::optional<Area> rated_area;
    std::optional<Current> charted;
    std::optional<Temperature> charted_at;
    Area area;
    Temperature around;
    Ratio by_size, by_heat;
    Current rating;

    /// The largest fuse before it: what it may carry with that cable. Without a chart its surroundings are left out, for
    /// they lower what the fuse holds as well.
    [[nodiscard]] Current largest_fuse() const { return charted ? rating : printed * by_size; }
};

PartRating part_rating(std::string part, Current printed, std::optional<Area> rated_area, Area conductor,
                       Temperature around);

/// Empty for a part without a rating of its own.
std::optional<PartRating> part_rating(const JointRow& part, Area conductor, Temperature around);

}  // namespace voltwright

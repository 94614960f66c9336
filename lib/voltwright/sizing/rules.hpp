#pragma once

#include "voltwright/units/gauge.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// A fuse that there is: on the shelf, or in the run already.
struct FuseOfRating {
    Current rating;
    std::string family;                    ///< as the family table names it
    std::optional<Current> breaking = {};  ///< what it is made to interrupt; empty: as the tables say of its family
    friend bool operator==(const FuseOfRating&, const FuseOfRating&) = default;
};

/// What a choice is held against, the same for every run of a vehicle.
struct Rules {
    std::string ampacity_basis = "us-33-cfr-183";
    std::vector<Gauge> sizes;                        ///< what the shop has, in any order
    std::optional<std::vector<FuseOfRating>> shelf;  ///< empty: every rating of the usual families
    Ratio fuse_use = percent(80);                    ///< share of its rating that a fuse may carry for long
    Area smallest = square_millimetres(1.0);         ///< thinnest conductor that is strong enough
};

}  // namespace voltwright

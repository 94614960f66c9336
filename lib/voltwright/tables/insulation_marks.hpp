#pragma once

#include "voltwright/provenance/source.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// What a mark on a cable says of the heat that its insulation bears.
struct InsulationMarkRow {
    std::string_view mark;              ///< "BC-5W2", "GXL", "tri-rated"
    Temperature lasts;                  ///< for long, dry
    std::optional<Temperature> wet;     ///< where it is less
    std::optional<Temperature> prints;  ///< where the cable prints more than it bears for long
    bool vehicle;                       ///< made for vehicles or boats
    Source source;
};

}  // namespace voltwright

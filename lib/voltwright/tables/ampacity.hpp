#pragma once

#include "voltwright/provenance/source.hpp"
#include "voltwright/units/gauge.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// A body of rules that says what current a conductor may carry.
struct AmpacityBasisRow {
    std::string_view basis;                      ///< `us-33-cfr-183`, `iso-13297`
    std::string_view title;                      ///< "US federal regulation 33 CFR 183.425, Table 5"
    Temperature ambient;                         ///< at which the table holds
    std::optional<Length> fuse_within;           ///< of the source, along the conductor
    std::optional<Length> fuse_within_enclosed;  ///< the same where sheathed or enclosed all the way
    Voltage grouping_from;  ///< below this voltage the grouping factors do not bind; 0 V: they always bind
    Source source;
};

/// One printed cell: the continuous current of a single conductor in free air at the basis's ambient.
struct AmpacityRow {
    std::string_view basis;
    Gauge gauge;
    Temperature insulation;  ///< the temperature rating of the insulation
    Current current;
    Source source;
};

/// A printed factor for loaded conductors lying together.
struct GroupingRow {
    std::string_view basis;
    int from;  ///< loaded conductors in the bundle
    std::optional<int> to;
    Ratio factor;
    Source source;
};

/// A printed factor for engine spaces: the most that the ambient law may leave there, never applied on top of it.
struct EngineSpaceRow {
    std::string_view basis;
    Temperature from;  ///< of such a place
    Temperature insulation;
    Ratio factor;
    Source source;
};

}  // namespace voltwright

#pragma once

#include "voltwright/provenance/source.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

enum class FuseForm { blade, bolted, post, breaker };

/// A family of fuses made to one standard. The rows stand in the order in which they are tried.
struct FuseFamilyRow {
    std::string_view family;    ///< as printed and typed: `blade`, `SF30`, `post`, `class T`
    std::string_view standard;  ///< "ISO 8820-3 type C"
    FuseForm form;
    /// Other spellings that are understood when typed and never printed, separated by a bar: "midi".
    std::string_view also;
    std::string_view in_shops;             ///< what to ask for there
    std::optional<Current> in_line_limit;  ///< continuous current of an in-line holder at 25 degC
    std::optional<Area> in_line_area;      ///< of the leads with which it carries that
    Resistance holder;                     ///< both contacts of its holder, usual
    PerKelvin rerating;                    ///< loss of rating per kelvin above 25 degC
    Source source;
    bool usual = true;           ///< comes into question when the user has no shelf of their own
    bool only_to_break = false;  ///< and that only in place of another that does not break enough
};

/// What a family may be asked to interrupt, at or below a voltage.
struct BreakingCapacityRow {
    std::string_view family;
    Voltage voltage;
    Current breaking_capacity;
    Source source;
};

/// One rating of a family that a shop may have.
struct FuseRow {
    std::string_view family;
    Current rating;
    std::optional<Resistance> cold;  ///< of the link alone, cold, where known
    Source source;
};

/// How long a family takes at a multiple of its rating: between these it has cleared.
struct TimeLimitRow {
    std::string_view family;
    Ratio multiple;
    Duration at_least;
    std::optional<Duration> at_most;  ///< empty: it need not clear at all
    Source source;
};

/// The share of its melting I²t that so many pulses may have, each, for a fuse to survive them.
struct PulseShareRow {
    int pulses;
    Ratio share;
    Source source;
};

/// How hot a cable may become in a short that is cleared within seconds, by its insulation.
struct ShortCircuitLimitRow {
    std::string_view material;  ///< `pvc`, `xlpe`, `rubber`, `silicone`; empty where only the rating is known
    Temperature rated_to;       ///< insulation rated to this or less
    Temperature limit;          ///< for at most 5 s
    TemperatureRise overload;   ///< above what it is rated for, for hours
    Source source;
};

}  // namespace voltwright

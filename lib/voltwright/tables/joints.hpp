#pragma once

#include "voltwright/provenance/source.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

enum class JointKind {
    lug,
    battery_clamp,
    ferrule,  ///< on the end of a conductor, in a screwed terminal
    plug,    ///< two halves of one kind that mate
    socket,  ///< that a plug of the appliance goes into
    other,   ///< a switch, a relay, a breaker
};

/// Something other than cable that sits in a run: a lug on its stud, a mated plug, a switch, a holder.
struct JointRow {
    std::string_view name;  ///< `lug`, `two-pole plug 50 A`, `isolator switch`
    JointKind kind;
    Area from, to;  ///< conductor areas it is for, both included
    /// New and well made: of the whole thing in the run (a two-pole plug counts both poles).
    Resistance low, usual, high;
    std::optional<Current> rating;   ///< continuous, where one is published or printed on the part
    std::optional<Area> rated_area;  ///< of the conductor with which it holds: a thinner one carries less heat away
    std::optional<Current> charted;  ///< where its maker publishes a chart: continuous, with `rated_area`
    std::optional<Temperature> charted_at;  ///< around it, in that chart
    std::optional<int> contacts;            ///< that share the heat; empty: one
    std::optional<bool> rating_on_it;       ///< its rating differs from one to the next and is printed on it
    Power heat_limit;                       ///< of one contact, at the current that it carries for long
    Source heat_limit_source;
    Source source;
};

/// The vehicle's body as the return of a run.
struct BodyReturnRow {
    std::string_view body;        ///< "spot-welded body", "bolted tub or ladder frame"
    std::string_view written;     ///< as a profile has it: "body", "frame"
    Resistance low, usual, high;  ///< end to end with an earth stud at each end
    Source source;
};

}  // namespace voltwright

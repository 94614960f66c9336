#pragma once

#include "voltwright/provenance/source.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// How much hotter than the outside air it is where a thing stands.
struct SurroundingsRow {
    std::string_view place;   ///< `engine bay`, `canopy`, `cabin`, `chassis rail`, `closed vehicle`, `shade` …
    TemperatureRise always;   ///< at any time
    TemperatureRise driving;  ///< added while the engine runs
    TemperatureRise sun;      ///< added at full sun while parked, gone by night
    bool closed;              ///< the sun's part comes through slowly: the lag of a closed vehicle
    std::optional<Temperature> floor;  ///< below which no wiring there is judged, however cold it is outside
    bool living;                       ///< people sleep in the same air
    Source source;
};

/// How slowly a thing takes the temperature around it.
struct LagRow {
    std::string_view thing;  ///< `battery`, `closed vehicle`
    Duration time_constant;  ///< after which 63 % of a sudden change has come through
    Source source;
};

}  // namespace voltwright

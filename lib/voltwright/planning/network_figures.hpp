#pragma once

#include "voltwright/circuit/conductor.hpp"
#include "voltwright/circuit/run.hpp"

#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// What one load behind a run draws through it.
struct NetworkShare {
    std::string name;
    Current current;
};

/// What a meter would show of a run: the whole tree of runs from one source, solved once with all on that can be on
/// together, the source at its usual voltage, conductors at the temperature where they settle.
///
///     I = Σ I_load                 U = I·R
///     V = V_begins − U             U_way = V_source − V
///
/// Loads that the clock keeps apart are not added: the tree is solved at the minute of the day at which its loads ask for
/// most, by what each draws at the source's voltage. A run in which nothing is on then is reported from the minute of its
/// own at which the tree asks for most (`apart`), the runs before it as warm as they are reported, so that all figures go
/// by the resistances reported. A charger at its input limit draws that. Where so much power cannot be brought, the load that asks for most gets none, until the rest can be fed; it has no figures.
/// Source: Kirchhoff's laws (solve_network()).
struct NetworkFigures {
    Voltage source;
    Voltage begins;                    ///< where the run begins
    std::vector<NetworkShare> shares;  ///< of each load behind it
    RunResistance resistance;
    Current current;
    Voltage drop;
    Voltage cable_drop;
    Voltage joint_drop;
    Ratio share;  ///< of 12 V
    Voltage far_end;
    Voltage way_drop;  ///< from the source to the far end
    Power heat;
    std::optional<ConductorTemperature> temperature;
    std::optional<std::string> at;  ///< clock; empty where all of the tree can be on at once
    bool apart;                     ///< at a minute of its own
};

}  // namespace voltwright

#pragma once

#include "voltwright/circuit/link.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>

/// Two batteries that a relay joins while the engine runs: what flows follows from their voltages and from the resistance
/// of the link.
namespace voltwright {

/// Loops of a link, from the starter battery through the relay to the house battery: with its conductors cold, and as warm
/// as its usual current makes them.
struct LinkLoops {
    Resistance cold, warm;
};

/// What flows through a link.
struct LinkFlow {
    LinkCurrent usual;   ///< when charging begins at the depth limit, no loads on, batteries as expected
    LinkCurrent charge;  ///< the most that goes into the battery: the low end of its resistance, copper cold
    LinkCurrent worst;  ///< that with everything on at the house battery: what cables, fuses and relay are held against
    Current cranking;   ///< back to the starter, when the engine is started with the relay closed: at most
};

/// Both ends of the house battery's resistance at its depth limit, and what hangs on it.
struct LinkEnds {
    Voltage source;  ///< at the starter battery, engine running as usual
    std::optional<Current> spare;
    LinkedBattery expected, stiffest;  ///< at the depth limit
    Current charge_limit;              ///< that the battery is made to take
    Voltage full;                      ///< rested and full
    Resistance least;                  ///< of the full battery while it gives
    Current loads;                     ///< all that can be on together at the house battery, at its design currents
};

LinkEnds link_ends(const System& system, const Tables& tables);

/// A flatter battery than at its depth limit takes more for a while, and a fuse may blow: it is told, not sized for.
///
/// Cranking: the starter pulls its battery down to 9.6 V at worst (data/practice/voltages.toml), and the house battery
/// pushes from its rest voltage:  I = (V_full − 9.6 V)/(R + R_i).
LinkFlow link_flow(const LinkEnds& ends, const LinkLoops& loops);

/// The current at which the link's drop is judged: what the battery would take at its depth limit through a link without
/// resistance, no more than it is made to take, nor than the alternator has to spare. What really flows holds itself back
/// through any cable, however thin, and proves nothing of it.
Current judged_current(const LinkEnds& ends);

/// Whether such a relay closes with the engine running as usual; one that the ignition works always does.
bool closes(const System& system);

}  // namespace voltwright

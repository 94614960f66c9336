#pragma once

#include "voltwright/circuit/load.hpp"
#include "voltwright/units/quantities.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace voltwright {

/// One piece of cable with what it feeds. A source of voltage V₂ behind R₂, such as a second battery, is exactly a
/// resistance R₂ beside a constant current of −V₂/R₂ here.
struct NetworkSection {
    std::optional<std::size_t> from;  ///< the section at whose far end it begins; empty: at the source
    Resistance loop;                  ///< out and back together, joints among it; may be zero
    std::vector<LoadLaw> loads;       ///< at its far end
};

struct NetworkAnswer {
    Voltage terminal;              ///< at the source, behind its internal resistance
    std::vector<Voltage> far_end;  ///< of each section
    std::vector<Current> current;  ///< through each section, away from the source
    Current source;                ///< of all sections that begin at the source
    int sweeps;
};

/// Voltages and currents of a radial tree of sections with one source, everything on at once.
///
///     I_k = Σ I_load(V_k) + Σ I_c                    backward: from the ends to the source
///     V_k = V_from − R_k·I_k                         forward: from the source to the ends
///     Y_k = Σ dI_load/dV + Σ Y_c/(1 + R_c·Y_c)       with the backward sweep
///
/// I_k, V_k     current through section k, voltage at its far end     R_k   its loop resistance
/// c            each section that begins at the far end of k
/// I_load       P/V, I or V/R                                         dI_load/dV   −P/V², 0 or 1/R
/// Y_k          by how much I_k follows V_k
///
/// Plain sweeps settle slowly where volts run short and never where they run out. Here the backward sweep carries Y
/// along, so the forward sweep corrects by what the loads will then draw: a Newton step of the whole tree for the price
/// of a sweep. It starts from the tree without its constant powers, which is above every solution; because P/V is convex,
/// the steps then come down upon the highest solution, the stable one, and cannot pass it. Where 1 + R·Y is no longer
/// above zero there is none to come down upon.
///
/// Holds for steady direct current, any tree, any loads of the kinds above. Voltages are good to 1e-12 of the source's up
/// to 99.99 % of the power that can be delivered, and to about 1e-7 at that power itself, where two solutions meet.
/// Source: backward/forward sweep (ladder iterative method) of distribution engineering textbooks, from memory; Newton's
/// method from above on a convex system of equations, from memory.
///
/// Empty when the loads cannot be fed: no voltages above zero satisfy the equations. Throws std::logic_error when a
/// section begins at one that does not stand before it, and for a negative loop, source resistance or power, a load of
/// zero ohm, or anything that is not a finite number.
std::optional<NetworkAnswer> solve_network(Voltage source, std::span<const NetworkSection> sections,
                                           Resistance internal = {});

}  // namespace voltwright

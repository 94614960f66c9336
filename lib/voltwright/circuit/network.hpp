#pragma once

#include "voltwright/units/quantities.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <variant>
#include <vector>

namespace voltwright {

/// What draws at the end of a section: a power, a current whatever the voltage (negative: it feeds), or a resistance.
using NetworkLoad = std::variant<Power, Current, Resistance>;

/// A run of a radial network, with the loads at its end.
struct NetworkSection {
    std::optional<std::size_t> from = {};  ///< an earlier section; empty: the source
    Resistance loop;                       ///< out and back together, whatever the way back
    std::vector<NetworkLoad> loads = {};
};

/// Voltages and currents of a radial network, by section.
struct NetworkAnswer {
    std::vector<Voltage> far_end;
    std::vector<Current> current;
    Current source;
    int sweeps;
};

/// Voltages and currents that settle in a radial network fed from one source.
///
///     backward   I_s = Σ loads at its end + Σ I of the sections that go on        forward   V_s = V_from − I_s·R_s
///
/// R_s   loop of section s        loads: P/V, I, V/R at the voltage of their section's end
///
/// Swept back and forth until no voltage moves by more than a part in 10¹³. Near the most power that can be brought the
/// sweeps are slow: Newton's method takes over, whose linear system on a tree is one more sweep.
/// From the source's voltage down, so of two solutions the upper, stable one is found. Empty when there is none:
/// so much power cannot be brought through these resistances.
///
/// Throws std::logic_error when a section stands before the one that it goes on from. Source: the backward/forward sweep
/// of distribution practice (ladder iteration), from memory.
std::optional<NetworkAnswer> solve_network(Voltage source, std::span<const NetworkSection> sections);

}  // namespace voltwright

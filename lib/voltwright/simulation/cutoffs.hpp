#pragma once

#include "voltwright/simulation/state.hpp"

#include <optional>

namespace voltwright {

/// The voltage of the battery's terminals at which a cut-off acts, with what flows there.
///
///     V = V_out + I·(R_path + (1 − d)·R_inside)
///
/// V_out   its cut-off voltage      I   the appliance's current there
/// d       share of the time that it runs: as much of I is counted in the terminals' voltage already
/// R_inside   of the battery, while that gives
Voltage acts_at(const CutOff& cut_off, const ConsumerState& consumer, const OperatingPoint& point);

/// The voltage of the battery's terminals at which an appliance that is off runs again: its reconnect voltage; without one,
/// 20 mV more than it then needs (common practice, no source), all of its current coming from the battery.
Voltage reconnects_at(const CutOff& cut_off, const OperatingPoint& point);

/// The levels within which nothing switches, the currents there, and what switches at their ends.
struct NextEvents {
    LinearSegment within;
    std::optional<std::size_t> acts, reconnects;  ///< cut-offs, at the low and at the high end
    bool recovers = false;                        ///< a depleted battery, at the high end
};

/// Narrows the levels to where a cut-off acts or reconnects before.
void narrow_to_cut_offs(const Setup& setup, const State& state, NextEvents& next);

/// What a cut-off has to do.
struct CutOffAction {
    std::size_t cut_off;
    bool reconnects;
};
/// The first that is due at the present level; empty when none is.
std::optional<CutOffAction> due_cut_off(const Setup& setup, const State& state);

/// How long until an appliance that was switched off may start again at the earliest, `most` when it is later.
Duration until_restart(const Setup& setup, const State& state, Duration most);

/// Switches an appliance off; its compressor or motor waits three minutes before it starts again (common practice, no
/// source). The loads are as before until connect_loads().
void act(State& state, const CutOff& cut_off);
void reconnect(State& state, const CutOff& cut_off);

}  // namespace voltwright

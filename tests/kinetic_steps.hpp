#pragma once

/// The kinetic battery at a constant current: the library's step, and the closed form that was published.

#include "voltwright/energy/kinetic_battery.hpp"

#include <cmath>
#include <optional>

namespace voltwright::testing {

inline KineticState full_state(const KineticParameters& kinetics, Charge whole) {
    return kinetic_state_at(kinetics, whole, Ratio{1.0});
}

/// The library's step at a constant current `out`, negative when charging. Nothing is held back: the available charge may
/// come out below nothing and above full.
inline KineticState constant_current_step(const KineticState& state, const KineticParameters& kinetics, Current out,
                                          Duration over) {
    return advance(state, kinetics, ampere_hours(1), {Ratio{-1e6}, Ratio{1e6}, -out, -out}, over).state;
}

/// When the library's step finds the available charge used up; at once when there is none. Empty when no current flows out.
inline std::optional<Duration> time_to_empty(const KineticState& state, const KineticParameters& kinetics,
                                             Current out) {
    if (!(out > Current{})) return {};
    if (!(state.available > Charge{})) return Duration{};
    // By then available and bound charge together are used up.
    const Duration latest = (state.available + state.bound) / out;
    return advance(state, kinetics, ampere_hours(1), {Ratio{}, Ratio{1e6}, -out, -out}, latest).took;
}

/// Available and bound charge after a constant current has flowed for a while, as the paper has it.
///
///     y₁′ = y₁·r + c·y₀·(1 − r) − I·Δt·(φ + c·(1 − φ))        y₂′ = y₀ − I·Δt − y₁′
///
/// y₀   y₁ + y₂     r   exp(−k·Δt)     φ   (1 − r)/(k·Δt)
///
/// Source: Manwell and McGowan, Solar Energy 50(5), 1993, 399-405.
inline KineticState published_step(const KineticState& state, const KineticParameters& kinetics, Current out,
                                   Duration over) {
    const double c = in_ratio(kinetics.available), x = in_ratio(kinetics.rate * over);
    const double moved = -std::expm1(-x), phi = x > 0.0 ? moved / x : 1.0;
    const Charge all = state.available + state.bound, drawn = out * over;
    const Charge available = state.available + (c * all - state.available) * moved - drawn * (phi + c * (1.0 - phi));
    return {available, all - drawn - available};
}

}  // namespace voltwright::testing

#pragma once

#include "voltwright/simulation/cutoffs.hpp"
#include "voltwright/simulation/record.hpp"

#include <optional>

namespace voltwright {

/// A depleted battery serves its loads again from this effective level on. Common practice, no source.
inline constexpr double serves_again_from = 0.05;

NextEvents next_events(const Setup& setup, const State& state);

/// How long until the first event that the clock brings: an appliance may start again, a fridge has caught up. `most` when
/// that is later.
Duration until_clock_event(const Setup& setup, const State& state, Duration most);

/// Does what is due where a step ended, and locates the segment that the next one begins in.
void handle_events(const Setup& setup, State& state, const NextEvents& events, Record& record);

/// Connects the loads for the interval that begins, and switches what is to be switched at its level.
void begin_loads(const Setup& setup, State& state, Record& record);

}  // namespace voltwright

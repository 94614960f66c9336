#pragma once

#include "voltwright/simulation/result.hpp"
#include "voltwright/simulation/scenario.hpp"
#include "voltwright/simulation/segment.hpp"

#include <optional>
#include <vector>

namespace voltwright {

/// A consumer's low-voltage cut-off, as it is set in a simulation.
struct CutOff {
    std::size_t consumer;
    LowVoltageCutOff limits;
    Current at_cut_off;  ///< what the appliance draws where it switches itself off
    Resistance path;     ///< loop from the battery's terminals to it
};

/// What stays the same throughout a simulation.
struct Setup {
    const Scenario& scenario;
    SimulationOptions options;
    std::vector<CutOff> cut_offs;
    decltype(1.0 / Charge{}) level_of_charge;  ///< level of the available charge, over that charge
};

Setup set_up(const Scenario& scenario, const SimulationOptions& options);

/// A consumer, as the simulation goes.
struct ConsumerState {
    Ratio duty{};           ///< share of the time that it runs, or would if it were not off
    Energy owed{};          ///< heat that a fridge has still to take out, as the energy that it takes for that
    Ratio catch_up{};       ///< share of the time for what it owes
    Ratio need{};           ///< share that the interval asked for when it was last connected
    bool ran = false;       ///< then
    Duration restart_at{};  ///< not before, after its cut-off acted
    bool off = false;       ///< by its cut-off
};

/// Where a simulation is: all that its next step depends on. Room is made at the start; a step allocates nothing.
struct alignas(64) State {
    Duration now;  ///< since the midnight before day 1
    const Interval* interval;
    const Ratio* needs;  ///< of each consumer in this interval
    KineticState charge;
    Ratio level;  ///< of the available charge
    bool floating = false;
    bool entered = false;  ///< the interval begins, and its loads are not connected yet
    Circuit circuit;
    std::optional<Duration> caught_up = {};  ///< when a fridge will have taken out what it owes, the first of them
    std::vector<ConsumerState> consumers;
    std::vector<RunningLoad> waiting;  ///< wanted, but off by their cut-off or by a depleted battery
};

/// At the beginning of the scenario's first interval; nothing is connected yet.
State initial_state(const Setup& setup);

/// Takes over what the interval brings from outside. The loads are as before until connect_loads().
void enter_interval(const Setup& setup, State& state, std::size_t index);

/// Connects the loads that are to run now, each for its share of the time.
///
///     d = min(n + E/(P·τ), 1)
///
/// n   share that the interval asks for     E   what a fridge owes     P   what its compressor draws
/// τ   1 h: what it owes it takes out over this time, if its compressor can. Common practice, no source.
///
/// E is that of the last moment at which something switched or n changed: that an interval begins is no reason to run
/// longer or shorter.
void connect_loads(const Setup& setup, State& state);

/// A fridge owes the heat that came in over a time and was not taken out; what it ran beyond that is paid.
void owe_heat(const Setup& setup, State& state, std::size_t consumer, Ratio ran, Duration time);

/// After a step.
void move_to(const Setup& setup, State& state, const KineticStep& step);

/// State of charge at the depth limit: higher where the cold keeps capacity back.
Ratio soc_at_depth_limit(const Scenario& scenario, const Interval& interval);

}  // namespace voltwright

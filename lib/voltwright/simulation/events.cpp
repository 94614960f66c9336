#include "voltwright/simulation/events.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// A charger at constant voltage goes to float below this share of the capacity in an hour. Common practice, no source.
constexpr double tail = 1.0 / 50.0;

constexpr Duration last_moment = seconds(1e-6);

Current tail_current(const HouseBattery& battery) { return tail * battery.capacity / hours(1); }

bool absorbing(const State& state) {
    return state.circuit.segment.mode == ChargeMode::constant_voltage && !state.floating;
}

void locate(State& state) { locate_segment(state.circuit, state.charge, state.level); }

/// Something switches: books what flowed until now, then connects the loads anew.
void switch_over(const Setup& setup, State& state, Record& record) {
    attribute_to_loads(setup, state, record);
    connect_loads(setup, state);
}

void cut_off(const Setup& setup, State& state, std::size_t index, Record& record) {
    const CutOff& which = setup.cut_offs[index];
    act(state, which);
    record_cut_off(state, which, record);
    const ConsumerResult& consumer = record.result.served[which.consumer];
    if (setup.options.stop_at_limit && consumer.essential) record_end(EndedBy::cut_off, consumer.name, record);
}

/// Where the current falls to the tail current; empty when it does not within the segment.
std::optional<Ratio> float_level(const State& state) {
    if (!absorbing(state)) return {};
    const Segment& segment = state.circuit.segment;
    const Current wanted = tail_current(*state.circuit.battery);
    const Current low = low_end(state.circuit).battery, high = high_end(state.circuit).battery;
    if (!(low > wanted) || !(high < wanted)) return {};
    const Ratio at = segment.low + (segment.high - segment.low) * ((low - wanted) / (low - high));
    if (!(at > state.level)) return {};
    return at;
}

/// The charger goes to float once the battery takes no more than its tail current.
void float_when_full(const Setup& setup, State& state, Record& record) {
    if (!absorbing(state)) return;
    const Current taken = flow_at(state.circuit, state.level).battery;
    if (taken > tail_current(*state.circuit.battery) * (1.0 + 1e-9)) return;
    state.floating = true;
    state.circuit.connections.target = state.interval->float_;
    switch_over(setup, state, record);
    locate(state);
}

/// Nothing is left that could be drawn, and no source carries the loads. At its last a battery may still give what comes out
/// of the bound charge; from what the cold keeps back it gives nothing.
bool runs_out(const State& state) {
    const Circuit& circuit = state.circuit;
    if (circuit.depleted || state.level > circuit.levels[0] + same_level) return false;
    if (circuit.fed && !(flow_at(circuit, state.level).battery < Current{})) return false;
    return state.level < circuit.levels[0] - same_level || !rises(circuit, state.charge, state.level);
}

/// What is left is nothing, or kept back by the cold, and is lost by self-discharge alone: a source carries the loads.
bool drains(const State& state) {
    const Circuit& circuit = state.circuit;
    return !circuit.depleted && state.level <= circuit.levels[0] + same_level &&
           flow_at(circuit, state.level).stored < Current{};
}

void set_drained(State& state, bool drained) {
    if (state.circuit.drained == drained) return;
    state.circuit.drained = drained;
    invalidate(state.circuit);
    locate(state);
}

void deplete(const Setup& setup, State& state, Record& record) {
    state.circuit.depleted = true;
    switch_over(setup, state, record);
    locate(state);
    if (setup.options.stop_at_limit) record_end(EndedBy::depleted, {}, record);
}

/// A depleted battery serves its loads again when it has recovered, and as soon as a source carries them.
void serve_again(const Setup& setup, State& state, Record& record) {
    Circuit& circuit = state.circuit;
    if (!circuit.depleted) return;
    const bool recovered = effective_level(circuit, state.level) >= serves_again_from - same_level;
    if (!recovered && !circuit.fed) return;
    circuit.depleted = false;
    switch_over(setup, state, record);
    locate(state);
    // What comes out of the bound charge does not count: it would carry them for a moment, again and again. Judged of an
    // empty battery, so that it is the same at every moment of the interval.
    if (recovered || !(flow_when_empty(circuit).battery < Current{})) return;
    circuit.depleted = true;
    switch_over(setup, state, record);
}

/// Appliances that see too little here go off, and those that see enough come back.
void switch_cut_offs(const Setup& setup, State& state, Record& record) {
    // One that comes back may go off again at once, and then waits: each switches twice at most.
    for (std::size_t round = 0; round <= 2 * setup.cut_offs.size(); ++round) {
        if (record.ended || state.circuit.depleted) return;
        const std::optional<CutOffAction> due = due_cut_off(setup, state);
        if (!due) return;
        if (due->reconnects)
            reconnect(state, setup.cut_offs[due->cut_off]);
        else
            cut_off(setup, state, due->cut_off, record);
        switch_over(setup, state, record);
        locate(state);
    }
}

/// Locates the segment, and switches what is due at this level.
void settle(const Setup& setup, State& state, Record& record) {
    locate(state);
    // Not at once: what comes out of the bound charge may be less than what it would lose again.
    constexpr double no_longer_drained = 1e-3;
    if (state.circuit.drained && state.level > state.circuit.levels[0] + no_longer_drained) set_drained(state, false);
    if (runs_out(state))
        deplete(setup, state, record);
    else if (drains(state))
        set_drained(state, true);
    switch_cut_offs(setup, state, record);
    float_when_full(setup, state, record);
}

}  // namespace

NextEvents next_events(const Setup& setup, const State& state) {
    const Circuit& circuit = state.circuit;
    const Segment& segment = circuit.segment;
    NextEvents next{{segment.low, float_level(state).value_or(segment.high), {}, {}}, {}, {}};
    LinearSegment& within = next.within;
    narrow_to_cut_offs(setup, state, next);
    if (circuit.depleted) {
        const Ratio recovered = level_at_effective(circuit, serves_again_from);
        if (state.level < recovered && recovered <= within.high) {
            within.high = recovered;
            next.recovers = true;
        }
    }
    within.at_low = within.low == segment.low ? low_end(circuit).stored : flow_at(circuit, within.low).stored;
    within.at_high = within.high == segment.high ? high_end(circuit).stored : flow_at(circuit, within.high).stored;
    return next;
}

Duration until_clock_event(const Setup& setup, const State& state, Duration most) {
    // Not for a last moment of the interval: the next one connects the loads anew.
    if (state.caught_up && *state.caught_up - state.now < most - last_moment)
        most = std::max<Duration>(*state.caught_up - state.now, Duration{});
    return until_restart(setup, state, most);
}

void handle_events(const Setup& setup, State& state, const NextEvents& events, Record& record) {
    if (events.acts && state.level <= events.within.low + same_level) cut_off(setup, state, *events.acts, record);
    if (events.reconnects && state.level >= events.within.high - same_level)
        reconnect(state, setup.cut_offs[*events.reconnects]);
    const bool caught_up = state.caught_up && !(*state.caught_up > state.now + last_moment);
    if (events.acts || events.reconnects || caught_up) switch_over(setup, state, record);
    if (events.recovers) serve_again(setup, state, record);
    settle(setup, state, record);
}

void begin_loads(const Setup& setup, State& state, Record& record) {
    switch_over(setup, state, record);
    serve_again(setup, state, record);
    settle(setup, state, record);
}

}  // namespace voltwright

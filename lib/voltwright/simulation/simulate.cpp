#include "voltwright/simulation/simulate.hpp"

#include "voltwright/simulation/events.hpp"

#include <algorithm>
#include <stdexcept>

namespace voltwright {

namespace {

/// A state of charge that begins at its limit is not below it by a rounding.
constexpr double same_soc = 1e-9;

/// Marks, cut-offs and modes are few: an interval with more steps than this does not get on.
constexpr int most_steps = 2000;

/// When, from the beginning of that step, the depth limit is passed for the first time.
std::optional<Duration> passes_limit(const Setup& setup, const State& state, const LinearSegment& segment,
                                     const KineticStep& step) {
    const HouseBattery& battery = setup.scenario.battery;
    // Who allows all of it has it until it gives no more: at slow currents that is more than its 20-hour capacity.
    if (!(setup.scenario.depth_limit < 1.0)) return {};
    const Charge limit =
        battery.whole - setup.scenario.depth_limit * (1.0 - state.interval->derating) * battery.capacity;
    const Charge nearly = same_soc * battery.capacity;
    // The cold may lift the limit above what is there.
    if (state.charge.available + state.charge.bound < limit - nearly) return Duration{};
    if (!(step.state.available + step.state.bound < limit - nearly)) return {};
    return time_to_total(state.charge, kinetics_in(state.circuit), battery.whole, segment, limit, step.took);
}

/// When a step first brings the battery to a state of charge, from its beginning and to a second.
Duration fills_after(const HouseBattery& battery, const State& state, const LinearSegment& segment, Duration took,
                     Ratio soc) {
    if (battery.soc(state.charge) >= soc) return {};
    const KineticParameters kinetics = kinetics_in(state.circuit);
    Duration early{}, late = took;
    while (late - early > seconds(1)) {
        const Duration middle = (early + late) / 2.0;
        const KineticState then = advance(state.charge, kinetics, battery.whole, segment, middle).state;
        (battery.soc(then) < soc ? early : late) = middle;
    }
    return late;
}

/// When it first holds each of told_fillings.
void record_fillings(const Setup& setup, const State& state, const LinearSegment& segment, const KineticStep& step,
                     Record& record) {
    const HouseBattery& battery = setup.scenario.battery;
    while (record.filled < told_fillings.size() && battery.soc(step.state) >= told_fillings[record.filled]) {
        const Duration after = fills_after(battery, state, segment, step.took, told_fillings[record.filled]);
        record.result.filled[record.filled++] = state.now + after - setup.scenario.intervals.front().from;
    }
    if (setup.options.stop_when_filled && record.filled == told_fillings.size()) record_end(EndedBy::trip, {}, record);
}

/// Advances by as much of `left` as nothing switches in.
Duration step(const Setup& setup, State& state, Duration left, Record& record) {
    const HouseBattery& battery = setup.scenario.battery;
    const NextEvents events = next_events(setup, state);
    const LinearSegment& segment = events.within;
    const KineticParameters kinetics = kinetics_in(state.circuit);
    KineticStep step = advance(state.charge, kinetics, battery.whole, segment, until_clock_event(setup, state, left));
    std::optional<Duration> passes;
    if (!record.result.below_limit) passes = passes_limit(setup, state, segment, step);
    if (passes) {
        if (setup.options.stop_at_limit) {
            step = advance(state.charge, kinetics, battery.whole, segment, *passes);
            record_end(EndedBy::depth_limit, {}, record);
        }
        record_below_limit(setup, state, state.now + *passes, record);
    }
    book_step(setup, state, step, record);
    record_fillings(setup, state, segment, step, record);
    move_to(setup, state, step);
    record_extremes(setup, state, record);
    if (step.took < left && !record.ended) handle_events(setup, state, events, record);
    return step.took;
}

void simulate_interval(const Setup& setup, State& state, std::size_t index, Record& record) {
    enter_interval(setup, state, index);
    if (state.circuit.fed)
        record.result.highest_target = std::max(record.result.highest_target, state.interval->absorption);
    open_day(setup, state, record);
    begin_loads(setup, state, record);
    if (record.result.points.empty()) record_point(setup, state, record);

    Duration left = state.interval->length;
    if (setup.options.until) left = std::min<Duration>(left, *setup.options.until - state.interval->from);
    for (int steps = 0; left > Duration{} && !record.ended; ++steps) {
        if (steps == most_steps) throw std::logic_error("the simulation does not get on");
        left -= step(setup, state, left, record);
    }
    attribute_to_loads(setup, state, record);
    record_point(setup, state, record);
}

}  // namespace

TripResult simulate(const Scenario& scenario, const SimulationOptions& options) {
    const Setup setup = set_up(scenario, options);
    State state = initial_state(setup);
    Record record = open_record(setup, state);
    for (std::size_t i = 0; i < scenario.intervals.size() && !record.ended; ++i) {
        if (options.until && !(scenario.intervals[i].from < *options.until)) break;
        simulate_interval(setup, state, i, record);
    }
    return close_record(setup, state, std::move(record));
}

}  // namespace voltwright

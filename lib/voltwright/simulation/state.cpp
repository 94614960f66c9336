#include "voltwright/simulation/state.hpp"

#include <algorithm>

namespace voltwright {

namespace {

constexpr Duration cools_down_in = hours(1);

Power compressor_draw(const Consumer& fridge) { return std::get<Power>(fridge.draw); }

/// Moments closer than this are the same.
constexpr Duration same_moment = seconds(1e-3);
/// Less than this nobody owes.
constexpr Energy next_to_nothing = joules(1e-3);

void set_duty(const Consumer& consumer, Ratio need, bool runs, bool goes_on, ConsumerState& state) {
    if (!consumer.fridge) {
        state.duty = need;
        return;
    }
    if (!goes_on || need != state.need || !state.ran || !runs)
        state.catch_up = state.owed / (compressor_draw(consumer) * cools_down_in);
    state.duty = std::min<Ratio>(need + state.catch_up, 1.0);
    state.need = need;
    state.ran = runs;
}

/// How long until a fridge that runs has taken out what it owes; empty when it owes nothing, or ever more.
std::optional<Duration> until_caught_up(const Consumer& consumer, const ConsumerState& state) {
    if (!consumer.fridge || !(state.owed > next_to_nothing) || !(state.duty > state.need)) return {};
    return state.owed / ((state.duty - state.need) * compressor_draw(consumer));
}

}  // namespace

Setup set_up(const Scenario& scenario, const SimulationOptions& options) {
    const HouseBattery& battery = scenario.battery;
    Setup setup{scenario, options, {}, 1.0 / (battery.kinetics.available * battery.whole)};
    for (std::size_t i = 0; i < scenario.consumers.size(); ++i) {
        const Consumer& consumer = scenario.consumers[i];
        if (const auto& limits = consumer.cut_offs[options.cut_off == CutOffSetting::high ? 1 : 0])
            setup.cut_offs.push_back({i, *limits, current_at(consumer.draw, limits->cut_off), consumer.path});
    }
    return setup;
}

State initial_state(const Setup& setup) {
    const Scenario& scenario = setup.scenario;
    const KineticState charge = scenario.battery.at(setup.options.start_soc.value_or(scenario.start_soc));
    State state{.now = Duration{},
                .interval = nullptr,
                .needs = nullptr,
                .charge = charge,
                .level = charge.available * setup.level_of_charge,
                .circuit = circuit_of(scenario.battery, scenario.output_path),
                .consumers = std::vector<ConsumerState>(scenario.consumers.size()),
                .waiting = {}};
    state.circuit.connections.by_relay = scenario.charger.link.has_value();
    state.circuit.connections.running.reserve(scenario.consumers.size());
    state.waiting.reserve(scenario.consumers.size());
    return state;
}

void enter_interval(const Setup& setup, State& state, std::size_t index) {
    const Interval& interval = setup.scenario.intervals[index];
    Circuit& circuit = state.circuit;
    const bool was_fed = circuit.fed;
    state.now = interval.from;
    state.entered = true;
    state.interval = &interval;
    state.needs = setup.scenario.needs_of(index);
    Connections& connections = circuit.connections;
    connections.charger = interval.charger;
    connections.sun = interval.sun;
    connections.takes_charge = interval.takes_charge;
    connections.cold_acceptance = interval.cold_acceptance;
    connections.charge_limit = interval.charge_limit;
    circuit.fed = connections.has_source();
    set_derating(circuit, interval.derating);
    if (!was_fed) state.floating = false;
    connections.target = state.floating ? interval.float_ : interval.absorption;
}

void connect_loads(const Setup& setup, State& state) {
    state.circuit.drained = false;
    invalidate(state.circuit);
    std::vector<RunningLoad>& running = state.circuit.connections.running;
    running.clear();
    state.waiting.clear();
    // Nothing but the clock brought this interval.
    const bool goes_on = state.entered && !(state.caught_up && *state.caught_up <= state.now + same_moment);
    state.entered = false;
    state.caught_up.reset();
    for (std::size_t i = 0; i < state.consumers.size(); ++i) {
        ConsumerState& consumer = state.consumers[i];
        const Consumer& load = setup.scenario.consumers[i];
        const bool runs = !state.circuit.depleted && !consumer.off;
        set_duty(load, state.needs[i], runs, goes_on, consumer);
        if (!(consumer.duty > Ratio{})) continue;
        (runs ? running : state.waiting).push_back({{load.draw, load.path, consumer.duty}, i});
        if (!runs) continue;
        if (const auto left = until_caught_up(load, consumer))
            state.caught_up = std::min(state.caught_up.value_or(state.now + *left), state.now + *left);
    }
}

void owe_heat(const Setup& setup, State& state, std::size_t consumer, Ratio ran, Duration time) {
    const Consumer& fridge = setup.scenario.consumers[consumer];
    if (!fridge.fridge) return;
    Energy& owed = state.consumers[consumer].owed;
    owed = std::max<Energy>(owed + (state.needs[consumer] - ran) * compressor_draw(fridge) * time, Energy{});
}

void move_to(const Setup& setup, State& state, const KineticStep& step) {
    state.charge = step.state;
    state.level = step.state.available * setup.level_of_charge;
    state.now += step.took;
}

Ratio soc_at_depth_limit(const Scenario& scenario, const Interval& interval) {
    return 1.0 - scenario.depth_limit * (1.0 - interval.derating);
}

}  // namespace voltwright

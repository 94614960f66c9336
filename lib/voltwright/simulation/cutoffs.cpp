#include "voltwright/simulation/cutoffs.hpp"

#include <algorithm>

namespace voltwright {

namespace {

constexpr Duration restart_delay = minutes(3);
/// An appliance without a reconnect voltage tries again when it would see this much more than its cut-off.
constexpr Voltage sure_to_run = millivolts(20);
/// Voltages closer than this are the same.
constexpr Voltage same_voltage = volts(1e-7);

bool wanted(const ConsumerState& consumer) { return consumer.duty > Ratio{}; }

bool may_reconnect(const ConsumerState& consumer, Duration now) { return consumer.off && !(consumer.restart_at > now); }

/// The terminals' voltage above that at which the cut-off would do what it can do next.
Voltage margin(const CutOff& cut_off, const ConsumerState& consumer, const OperatingPoint& point) {
    return point.terminals - (consumer.off ? reconnects_at(cut_off, point) : acts_at(cut_off, consumer, point));
}

}  // namespace

Voltage acts_at(const CutOff& cut_off, const ConsumerState& consumer, const OperatingPoint& point) {
    const Resistance inside = point.battery > Current{} ? Resistance{} : point.inside;
    const double not_counted = 1.0 - in_ratio(consumer.duty);
    return cut_off.limits.cut_off + cut_off.at_cut_off * (cut_off.path + not_counted * inside);
}

Voltage reconnects_at(const CutOff& cut_off, const OperatingPoint& point) {
    if (cut_off.limits.reconnect) return *cut_off.limits.reconnect;
    return cut_off.limits.cut_off + cut_off.at_cut_off * (cut_off.path + point.inside) + sure_to_run;
}

void narrow_to_cut_offs(const Setup& setup, const State& state, NextEvents& next) {
    if (state.circuit.depleted) return;
    const Segment& segment = state.circuit.segment;
    for (std::size_t i = 0; i < setup.cut_offs.size(); ++i) {
        const CutOff& cut_off = setup.cut_offs[i];
        const ConsumerState& consumer = state.consumers[cut_off.consumer];
        if (!wanted(consumer) || (consumer.off && !may_reconnect(consumer, state.now))) continue;
        // The margin at both ends; in between it is linear.
        const Voltage at_low = margin(cut_off, consumer, low_end(state.circuit));
        if (!(at_low < Voltage{})) continue;
        const Voltage at_high = margin(cut_off, consumer, high_end(state.circuit));
        if (!(at_high > Voltage{})) continue;
        const Ratio at = segment.low - (segment.high - segment.low) * (at_low / (at_high - at_low));
        if (!consumer.off && at < state.level && at > next.within.low) {
            next.within.low = at;
            next.acts = i;
        } else if (consumer.off && at > state.level && at < next.within.high) {
            next.within.high = at;
            next.reconnects = i;
        }
    }
}

std::optional<CutOffAction> due_cut_off(const Setup& setup, const State& state) {
    for (std::size_t i = 0; i < setup.cut_offs.size(); ++i) {
        const CutOff& cut_off = setup.cut_offs[i];
        const ConsumerState& consumer = state.consumers[cut_off.consumer];
        if (!wanted(consumer) || (consumer.off && !may_reconnect(consumer, state.now))) continue;
        // The margin of one that is on rises with the level: enough at the bottom of the segment is enough here.
        if (!consumer.off && margin(cut_off, consumer, low_end(state.circuit)) > same_voltage) continue;
        const Voltage here = margin(cut_off, consumer, flow_at(state.circuit, state.level));
        if (!consumer.off && here <= same_voltage) return CutOffAction{i, false};
        if (consumer.off && here >= -same_voltage) return CutOffAction{i, true};
    }
    return {};
}

Duration until_restart(const Setup& setup, const State& state, Duration most) {
    for (const CutOff& cut_off : setup.cut_offs) {
        const ConsumerState& consumer = state.consumers[cut_off.consumer];
        if (consumer.off && consumer.restart_at > state.now)
            most = std::min<Duration>(most, consumer.restart_at - state.now);
    }
    return most;
}

void act(State& state, const CutOff& cut_off) {
    ConsumerState& consumer = state.consumers[cut_off.consumer];
    consumer.off = true;
    consumer.restart_at = state.now + restart_delay;
}

void reconnect(State& state, const CutOff& cut_off) { state.consumers[cut_off.consumer].off = false; }

}  // namespace voltwright

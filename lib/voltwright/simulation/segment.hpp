#pragma once

#include "voltwright/energy/house_battery.hpp"
#include "voltwright/simulation/operating_point.hpp"

#include <array>
#include <cstdint>
#include <optional>

namespace voltwright {

/// Levels closer than this are the same.
inline constexpr double same_level = 1e-12;

/// A segment of the levels in which all currents are linear and the charger's mode is one.
struct Segment {
    Ratio low, high;
    std::size_t at_low, at_high;  ///< operating points of its ends, among those solved for the circuit
    ChargeMode mode;
    bool charged = false;  ///< the battery is, all over it
};

/// The circuit at a battery's terminals while nothing switches, and the operating points solved for it so far: each
/// once, when it is first asked for. Aligned, for half of a step goes into fields that would lie across two cache lines.
struct alignas(64) Circuit {
    const HouseBattery* battery;
    Connections connections = {};
    bool fed = false;                         ///< by charger or panel
    bool depleted = false;                    ///< the battery gives nothing, not even its self-discharge
    bool drained = false;                     ///< nor does this one, whose loads a source carries
    Ratio derating{};                         ///< share of the capacity that the cold keeps back
    std::array<Ratio, battery_marks> levels;  ///< of the battery's marks, as a share of all available charge
    Segment segment{};                        ///< where locate_segment() last found the level

    std::uint32_t connected = 0;  ///< counts up whenever something switches
    /// An operating point, and the connections that it was solved for.
    struct Solved {
        std::uint32_t connected = 0;
        OperatingPoint point = {};
    };
    std::array<Solved, 2 * battery_marks + 1> solved = {};  ///< mark by mark in both modes; the last: at the transition
    struct Mode {
        std::uint32_t connected = 0;
        ChargeMode mode = ChargeMode::constant_current;
    };
    std::array<Mode, battery_marks> modes = {};
    /// Where the charger goes from constant current to constant voltage, between a mark and the next.
    struct Transition {
        std::size_t mark;
        Ratio level;
    };
    std::optional<Transition> transition = {};
    std::size_t mark = battery_marks - 2;  ///< below the level where it was last: the search begins here
};

Circuit circuit_of(const HouseBattery& battery, Resistance output_path);

/// What the cold keeps back counts for nothing at the terminals: the battery's marks move up with it.
void set_derating(Circuit& circuit, Ratio derating);

/// Nothing is left that could be lost by self-discharge.
inline bool gives_nothing(const Circuit& circuit) { return circuit.depleted || circuit.drained; }

/// The level as the terminals feel it.
Ratio effective_level(const Circuit& circuit, Ratio level);
/// The level of the available charge at which the terminals feel that one.
Ratio level_at_effective(const Circuit& circuit, Ratio effective);

/// Something was switched: the operating points no longer hold.
void invalidate(Circuit& circuit);

/// Finds the segment that the level is in, or that it is about to enter: at the bottom of one it depends on whether it
/// rises. It is the circuit's from then on.
const Segment& locate_segment(Circuit& circuit, const KineticState& charge, Ratio level);

/// What flows at the terminals of an empty battery.
const OperatingPoint& flow_when_empty(Circuit& circuit);

inline const OperatingPoint& low_end(const Circuit& circuit) { return circuit.solved[circuit.segment.at_low].point; }
inline const OperatingPoint& high_end(const Circuit& circuit) { return circuit.solved[circuit.segment.at_high].point; }

/// What flows at a share of the way from the low to the high end of the segment.
inline OperatingPoint flow_between(const Circuit& circuit, double share) {
    const OperatingPoint &low = low_end(circuit), &high = high_end(circuit);
    const auto mix = [share](auto a, auto b) { return a + share * (b - a); };
    return {mix(low.stored, high.stored), mix(low.battery, high.battery), mix(low.source, high.source),
            mix(low.terminals, high.terminals), mix(low.inside, high.inside)};
}

/// What flows at a level of the segment.
inline OperatingPoint flow_at(const Circuit& circuit, Ratio level) {
    const Ratio low = circuit.segment.low, high = circuit.segment.high;
    return flow_between(circuit, high > low ? double((level - low) / (high - low)) : 0.0);
}

/// What flows on average over a time, of which `level_time` is the level's integral.
inline OperatingPoint mean_flow(const Circuit& circuit, Duration level_time, Duration time) {
    const Ratio low = circuit.segment.low, high = circuit.segment.high;
    return flow_between(circuit, high > low ? double((level_time - low * time) / ((high - low) * time)) : 0.0);
}

/// The kinetic battery as it is in the segment.
inline KineticParameters kinetics_in(const Circuit& circuit) {
    return kinetics_of(*circuit.battery, circuit.segment.charged);
}

/// Whether the level rises there: more flows in than goes over into the bound charge.
inline bool rises(const Circuit& circuit, const KineticState& charge, Ratio level) {
    const KineticParameters kinetics = kinetics_in(circuit);
    const Current into_bound =
        kinetics.rate * ((1.0 - kinetics.available) * charge.available - kinetics.available * charge.bound);
    return flow_at(circuit, level).stored - into_bound > Current{};
}

}  // namespace voltwright

#include "voltwright/simulation/segment.hpp"

#include <algorithm>
#include <new>

namespace voltwright {

namespace {

constexpr std::size_t at_transition = 2 * battery_marks;

std::size_t index_of(std::size_t mark, ChargeMode mode) {
    return 2 * mark + (mode == ChargeMode::constant_voltage ? 1 : 0);
}

/// The operating point at a mark, solved when it is not known.
const OperatingPoint& point_at(Circuit& circuit, std::size_t mark, ChargeMode mode) {
    Circuit::Solved& solved = circuit.solved[index_of(mark, mode)];
    if (solved.connected != circuit.connected) {
        const BatteryLevel& level = circuit.battery->levels[mark];
        const Voltage near = solved.connected != 0 ? solved.point.terminals : level.open;
        // Into its place at once: a copy of what has only just been written has to wait for it.
        new (&solved.point) OperatingPoint(operating_point(circuit.connections, *circuit.battery, level, mode, near));
        solved.connected = circuit.connected;
        if (gives_nothing(circuit) && solved.point.stored < Current{}) {
            solved.point.stored = Current{};  // never below empty
            solved.point.battery = std::max(solved.point.battery, Current{});
        }
        // What is empty and gives nothing, for a source carries all, loses nothing by itself.
        const bool carried = mark == 0 && circuit.fed && solved.point.battery == Current{};
        if (carried && solved.point.stored < Current{}) solved.point.stored = Current{};
    }
    return solved.point;
}

ChargeMode mode_at_mark(Circuit& circuit, std::size_t mark) {
    // A full battery without bound charge takes nothing in either mode: the charger's mode does not change there.
    if (circuit.battery->one_well && mark + 1 == battery_marks) return mode_at_mark(circuit, mark - 1);
    if (!circuit.fed) return ChargeMode::constant_current;
    Circuit::Mode& known = circuit.modes[mark];
    if (known.connected != circuit.connected)
        known = {circuit.connected, mode_at(circuit.connections, *circuit.battery, circuit.battery->levels[mark],
                                            point_at(circuit, mark, ChargeMode::constant_current))};
    return known.mode;
}

bool skipped(const Circuit& circuit, std::size_t mark) {
    return !circuit.fed && circuit.battery->levels[mark].charging_only;
}

/// The next mark that counts.
std::size_t mark_above(const Circuit& circuit, std::size_t mark) {
    do ++mark;
    while (skipped(circuit, mark));
    return mark;
}
std::size_t mark_below(const Circuit& circuit, std::size_t mark) {
    do --mark;
    while (skipped(circuit, mark));
    return mark;
}

/// The last mark that is not above the level; the last but one at most.
std::size_t mark_at(const Circuit& circuit, Ratio level) {
    std::size_t mark = circuit.mark;
    if (skipped(circuit, mark)) mark = mark_below(circuit, mark);
    while (mark > 0 && level < circuit.levels[mark] - same_level) mark = mark_below(circuit, mark);
    for (std::size_t next = mark_above(circuit, mark);
         next + 1 < battery_marks && level >= circuit.levels[next] - same_level; next = mark_above(circuit, mark))
        mark = next;
    return mark;
}

/// The transition between a mark and the next one, and its operating point: one for the segments on both sides of it.
const Circuit::Transition& transition_above(Circuit& circuit, std::size_t mark) {
    if (circuit.transition && circuit.transition->mark == mark) return *circuit.transition;
    // At constant current the volts at the charger's end rise with the level in a straight line, or nearly.
    const auto volts_at_source = [&](std::size_t at) {
        const OperatingPoint& giving = point_at(circuit, at, ChargeMode::constant_current);
        return giving.terminals + cable_volts(circuit.connections, giving.source);
    };
    const Voltage low_end = volts_at_source(mark), high_end = volts_at_source(mark + 1);
    const Voltage target = circuit.connections.target;
    const double share = std::clamp(double((target - low_end) / (high_end - low_end)), 1e-6, 1.0 - 1e-6);
    const auto mix = [share](auto a, auto b) { return a + share * (b - a); };
    const BatteryLevel &low = circuit.battery->levels[mark], &high = circuit.battery->levels[mark + 1];
    const BatteryLevel here{mix(low.level, high.level), mix(low.open, high.open), mix(low.giving, high.giving),
                            mix(low.taking, high.taking), true};
    circuit.solved[at_transition].point =
        operating_point(circuit.connections, *circuit.battery, here, ChargeMode::constant_voltage, target);
    circuit.transition = Circuit::Transition{mark, level_at_effective(circuit, here.level)};
    return *circuit.transition;
}

/// Whether charge goes in all over the segment. A full battery stores nothing of what it takes.
bool charged_throughout(const Circuit& circuit) {
    if (!circuit.fed) return false;
    const OperatingPoint &low = low_end(circuit), &high = high_end(circuit);
    const bool to_full = !(circuit.segment.high < circuit.levels[battery_marks - 1]);
    return low.stored > Current{} && (to_full ? high.battery > Current{} : high.stored > Current{});
}

/// From a mark to the next, on the level's side of where the charger's mode changes.
void set_segment_above(Circuit& circuit, std::size_t mark, Ratio level, bool from_above) {
    const std::size_t next = mark_above(circuit, mark);
    const ChargeMode below = mode_at_mark(circuit, mark), above = mode_at_mark(circuit, next);
    Segment& segment = circuit.segment;
    segment = {circuit.levels[mark], circuit.levels[next], index_of(mark, below), index_of(next, below), below};
    point_at(circuit, mark, below);
    point_at(circuit, next, below);
    if (above == below) {
        segment.charged = charged_throughout(circuit);
        return;
    }
    const Circuit::Transition& transition = transition_above(circuit, mark);
    if (level < transition.level - same_level || (from_above && level <= transition.level + same_level)) {
        segment.at_high = at_transition;
        segment.high = transition.level;
    } else {
        point_at(circuit, next, above);
        segment.at_low = at_transition;
        segment.at_high = index_of(next, above);
        segment.low = transition.level;
        segment.mode = above;
    }
    segment.charged = charged_throughout(circuit);
}

/// Below what the cold keeps back nothing comes out; what goes in goes in as at empty.
void set_segment_kept_back(Circuit& circuit) {
    const ChargeMode mode = mode_at_mark(circuit, 0);
    point_at(circuit, 0, mode);
    circuit.segment = {Ratio{}, std::max<Ratio>(circuit.derating, same_level), index_of(0, mode), index_of(0, mode),
                       mode};
    circuit.segment.charged = charged_throughout(circuit);
}

}  // namespace

Circuit circuit_of(const HouseBattery& battery, Resistance output_path) {
    Circuit circuit{.battery = &battery, .levels = {}};
    circuit.connections.output_path = output_path;
    for (std::size_t mark = 0; mark < battery_marks; ++mark) circuit.levels[mark] = battery.levels[mark].level;
    return circuit;
}

void set_derating(Circuit& circuit, Ratio derating) {
    if (derating == circuit.derating) return;
    circuit.derating = derating;
    for (std::size_t mark = 0; mark < battery_marks; ++mark)
        circuit.levels[mark] = level_at_effective(circuit, circuit.battery->levels[mark].level);
}

Ratio effective_level(const Circuit& circuit, Ratio level) {
    return (level - circuit.derating) / (1.0 - circuit.derating);
}

Ratio level_at_effective(const Circuit& circuit, Ratio effective) {
    return circuit.derating + (1.0 - circuit.derating) * effective;
}

void invalidate(Circuit& circuit) {
    ++circuit.connected;
    circuit.transition.reset();
}

const OperatingPoint& flow_when_empty(Circuit& circuit) { return point_at(circuit, 0, mode_at_mark(circuit, 0)); }

const Segment& locate_segment(Circuit& circuit, const KineticState& charge, Ratio level) {
    const Segment& segment = circuit.segment;
    if (level < circuit.levels[0] - same_level) {
        set_segment_kept_back(circuit);
        return segment;
    }
    const std::size_t mark = circuit.mark = mark_at(circuit, level);
    set_segment_above(circuit, mark, level, false);
    const bool at_bottom = level <= segment.low + same_level;
    if (!at_bottom || rises(circuit, charge, level)) return segment;
    // At the bottom of a segment and falling: the one below.
    const bool was_charged = segment.charged;
    if (segment.low > circuit.levels[mark] + same_level)
        set_segment_above(circuit, mark, level, true);
    else if (mark > 0)
        set_segment_above(circuit, mark_below(circuit, mark), level, true);
    else
        set_segment_kept_back(circuit);
    // Bound charge follows faster where charge goes in all over the segment. Falling only for that, and rising without it, the
    // level would stay between the two for ever: it goes on as below.
    if (was_charged && !segment.charged && rises(circuit, charge, level)) {
        set_segment_above(circuit, mark, level, false);
        circuit.segment.charged = false;
    }
    return segment;
}

}  // namespace voltwright

#include "voltwright/diagnosis/reading_limits.hpp"
#include "voltwright/diagnosis/screening_state.hpp"

#include <cmath>

namespace voltwright {

namespace {

/// Does a reading show what stands before a run's load, with the same source at work?
bool shows_unloaded(const ScreeningState& state, const Measurement& other, const Measurement& loaded,
                    std::size_t branch) {
    const Branch& run = state.model().branches[branch];
    const auto& points = std::get<Probe::Between>(other.probe.what);
    if (!points.red.same_place(points.black)) return false;
    if (other.condition == loaded.condition) {
        if (run.from) return points.red.at == Probe::Point::At::branch && points.red.branch == *run.from;
        return at_posts(other, run.by_starter ? Battery::starter : Battery::house);
    }
    const bool same_source = run.by_starter ? other.condition.engine == loaded.condition.engine
                                            : other.condition.charger_runs() == loaded.condition.charger_runs();
    const bool at_end = points.red.at == Probe::Point::At::branch && points.red.branch == branch;
    return same_source && at_end && !loop_drop(state.evidence.sound, branch, other.condition);
}

/// By how much a reading is below what stands before its load, and what the difference may be off.
struct Lost {
    Voltage volts{};
    Voltage uncertainty{};
};

Lost lost_before(const ScreeningState& state, const Measurement& loaded, Voltage there, std::size_t branch) {
    Lost most;
    Voltage other_uncertainty{};
    for (const Measurement& other : state.measurements()) {
        const auto stands = plus_to_minus(other);
        if (!stands || &other == &loaded || *stands >= impossible_voltage ||
            !shows_unloaded(state, other, loaded, branch))
            continue;
        if (*stands - there <= most.volts) continue;
        most.volts = *stands - there;
        other_uncertainty = other.uncertainty.voltage();
    }
    most.uncertainty = volts(std::hypot(in_volts(other_uncertainty), loaded.uncertainty.number()));
    return most;
}

/// The voltage below which what hangs at the end of a run switches itself off; empty where it does not.
std::optional<Voltage> runs_down_to(const ScreeningState& state, std::size_t branch) {
    for (const SystemRun& run : state.evidence.sound.system.runs) {
        if (*run.run.name != state.model().branches[branch].run) continue;
        if (const auto* charger = std::get_if<ConverterLoad>(&run.load)) return charger->input_off;
        if (const auto* appliance = std::get_if<PowerLoad>(&run.load)) return appliance->cut_out;
    }
    return {};
}

std::optional<Current> clamped_current(const ScreeningState& state, const Measurement& loaded, std::size_t branch) {
    std::optional<Current> flows;
    for (const Measurement& other : state.measurements()) {
        const auto* through = std::get_if<Probe::Through>(&other.probe.what);
        if (through && through->branch == branch && other.condition == loaded.condition &&
            !shows_no_current(state.evidence, other))
            flows = other.value.current();
    }
    return flows;
}

void check_end(ScreeningState& state, const Measurement& loaded, Voltage there, std::size_t branch) {
    const auto loop = loop_drop(state.evidence.sound, branch, loaded.condition);
    const auto limits = reading_limits(state.evidence.sound, loaded.probe, loaded.condition);
    if (!loop || !limits || behind_open_circuit(state, loaded)) return;
    const Lost lost = lost_before(state, loaded, there, branch);
    if (lost.volts < loop->most + nineteen_in_twenty * lost.uncertainty) return;
    state.anomalies.push_back({.kind = Anomaly::Kind::cannot_carry,
                               .measurement = loaded.number,
                               .run = state.model().branches[branch].run,
                               .found = Measure{lost.volts},
                               .limit = Measure{loop->most},
                               .at = loop->at,
                               .flows = clamped_current(state, loaded, branch),
                               .gives_up = there < runs_down_to(state, branch).value_or(limits->least->voltage())});
}

}  // namespace

/// The volts at the far end of a run while it carries, against those without its load: at its beginning at the same time, or
/// at either end while nothing flows.
void check_lost_under_load(ScreeningState& state) {
    for (const Measurement& loaded : state.measurements()) {
        const auto there = plus_to_minus(loaded);
        if (!there || *there < dead_below) continue;
        const auto& points = std::get<Probe::Between>(loaded.probe.what);
        if (!points.red.same_place(points.black) || points.red.at != Probe::Point::At::branch ||
            charger_is_idle(state, loaded.condition))
            continue;
        check_end(state, loaded, *there, points.red.branch);
    }
}

}  // namespace voltwright

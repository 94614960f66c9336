#include "voltwright/diagnosis/reading_limits.hpp"
#include "voltwright/diagnosis/screening_state.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

/// A charger that gives less than this share of its output does nothing (data/practice/shares.toml).
const double share_of_idle_charger = in_ratio(in_practice(PracticeShare::idle_charger));
/// Less than this share of what a sound feed loses is no current; and two steps of a meter's 10 mV are no difference.
constexpr double next_to_none = 0.1;
constexpr Voltage two_steps = volts(0.02);
/// A joint whose usual drop is not so many uncertainties large says nothing by having none.
constexpr double tells_by_having_none = 20.0;
/// Of three signs that the charger does nothing, as many have to be seen.
constexpr int signs_wanted = 2;
/// The house battery shows no more than this at rest, four fifths full (data/practice/shares.toml).
const Ratio well_charged = in_practice(PracticeShare::well_charged);

bool clamp_shows_idle(const CircuitModel& model, const Measurement& told) {
    const auto* through = std::get_if<Probe::Through>(&told.probe.what);
    return through && told.condition.charger_runs() && model.is_chargers(through->branch) &&
           told.value < MeterValue(Current(share_of_idle_charger * model.charger_output));
}

bool charger_was_clamped(const ScreeningState& state, const TestCondition& condition) {
    return std::any_of(state.measurements().begin(), state.measurements().end(), [&](const Measurement& one) {
        const auto* through = std::get_if<Probe::Through>(&one.probe.what);
        return through && one.condition == condition && state.model().is_chargers(through->branch);
    });
}

void tell_idle(ScreeningState& state, const Measurement& told, const std::string& run, std::optional<Measure> found) {
    Anomaly anomaly{.kind = Anomaly::Kind::charger_idle, .measurement = told.number, .run = run, .found = found};
    // To a lamp at its end a sound feed loses in proportion.
    if (state.model().feed)
        if (const auto loop = loop_drop(state.evidence.sound, *state.model().feed, {Engine::driving, {}})) {
            anomaly.at = lamp_test / rested_starter;
            const Voltage lost = loop->most * in_ratio(*anomaly.at / loop->at);
            anomaly.limit = Measure{lost + two_steps};
        }
    state.anomalies.push_back(std::move(anomaly));
}

void check_clamp(ScreeningState& state, std::size_t reading) {
    const Measurement& told = state.measurements()[reading];
    const auto* through = std::get_if<Probe::Through>(&told.probe.what);
    if (!through || !state.model().is_chargers(through->branch) || told.condition.charger_off) return;
    // A relay is no charger that sleeps: what flows is held against its limit.
    if (state.evidence.sound.system.relay) return;
    const std::string& run = state.model().branches[through->branch].run;
    if (clamp_shows_idle(state.model(), told)) {
        // It cannot where the way to it is open, and need not be told to look.
        if (!behind_open_circuit(state, told)) tell_idle(state, told, run, told.value.measure());
        return;
    }
    if (told.condition.charging() || told.value <= MeterValue(most_asleep(state.evidence.sound.meter))) return;
    state.anomalies.push_back(
        {.kind = Anomaly::Kind::charger_awake, .measurement = told.number, .run = run, .found = told.value.measure()});
    state.finished[reading] = true;
}

/// The most that the house battery shows while nothing charges it: as it was read at rest, or well charged.
Voltage house_at_most_at_rest(const ScreeningState& state) {
    for (const Measurement& one : state.measurements())
        if (at_posts(one, Battery::house) && !one.condition.charging() && one.condition.with.empty())
            return *plus_to_minus(one) + two_steps;
    return house_at_rest(state.evidence.sound.system, well_charged, state.evidence.sound.tables);
}

/// What the voltages of one condition say of the charger.
struct IdleSigns {
    const Measurement* tells = nullptr;  ///< the reading to name
    bool feed_loses_nothing = false, feed_loses = false;
    std::optional<Voltage> starter = {}, charger = {};
    int house_at_rest = 0;
};

/// Is next to nothing lost in the feed, or more?
void look_at_feed_drop(const ScreeningState& state, const Measurement& drop, IdleSigns& signs) {
    const auto limits = reading_limits(state.evidence.sound, drop.probe, drop.condition);
    if (!limits) return;
    const bool over = std::holds_alternative<Probe::Over>(drop.probe.what);
    if (over && limits->expected < tells_by_having_none * drop.uncertainty) return;
    (drop.value < next_to_none * limits->expected ? signs.feed_loses_nothing : signs.feed_loses) = true;
    if (signs.feed_loses_nothing) signs.tells = &drop;
}

void look_at(const ScreeningState& state, const Measurement& one, IdleSigns& signs) {
    const auto there = plus_to_minus(one);
    const bool on_feed = measured_branch(state.model(), one.probe) == state.model().feed;
    if (on_feed && !there) look_at_feed_drop(state, one, signs);
    if (on_feed && there) signs.charger = *there;
    if (at_posts(one, Battery::starter)) signs.starter = *there;
    if (at_posts(one, Battery::house) && *there <= house_at_most_at_rest(state)) {
        ++signs.house_at_rest;
        signs.tells = &one;
    }
}

bool same_voltage(const IdleSigns& signs, Voltage little) {
    return signs.starter && signs.charger && MeterValue(*signs.starter - *signs.charger).size() < MeterValue(little);
}

/// Without a clamp two of these tell that the charger does nothing: next to nothing is lost in the feed, the charger has the
/// starter battery's volts, and the house battery stands no higher than at rest.
void check_voltages(ScreeningState& state, const TestCondition& condition) {
    const auto loop = loop_drop(state.evidence.sound, *state.model().feed, condition);
    if (!loop) return;
    IdleSigns signs;
    for (const Measurement& one : state.measurements())
        if (one.condition == condition) look_at(state, one, signs);
    if (signs.feed_loses) return;
    const Voltage little = std::max<Voltage>(next_to_none * loop->expected, two_steps);
    const int seen = signs.house_at_rest + (signs.feed_loses_nothing ? 1 : 0) + (same_voltage(signs, little) ? 1 : 0);
    if (seen < signs_wanted || !signs.tells) return;
    state.idle_charger.push_back(condition);
    tell_idle(state, *signs.tells, state.model().branches[*state.model().feed].run, {});
}

void check_voltages_of_each_condition(ScreeningState& state) {
    if (!state.model().feed) return;
    std::vector<TestCondition> seen;
    for (const Measurement& first : state.measurements()) {
        const TestCondition& condition = first.condition;
        if (!condition.charger_runs() || charger_was_clamped(state, condition) || charger_is_idle(state, condition) ||
            std::find(seen.begin(), seen.end(), condition) != seen.end())
            continue;
        seen.push_back(condition);
        check_voltages(state, condition);
    }
}

/// It waits for an alternator that charges, unless a clamp says otherwise.
bool waits_for_alternator(const ScreeningState& state, std::size_t reading) {
    const Measurement& one = state.measurements()[reading];
    return state.battery_as_read[reading] && at_posts(one, Battery::starter) &&
           *plus_to_minus(one) < state.evidence.sound.system.starter.running &&
           !charger_was_clamped(state, one.condition);
}

}  // namespace

void check_charger(ScreeningState& state) {
    for (std::size_t i = 0; i < state.measurements().size(); ++i) check_clamp(state, i);
    check_voltages_of_each_condition(state);
}

bool charger_is_idle(const ScreeningState& state, const TestCondition& condition) {
    if (!condition.charger_runs()) return false;
    if (std::find(state.idle_charger.begin(), state.idle_charger.end(), condition) != state.idle_charger.end())
        return true;
    for (std::size_t i = 0; i < state.measurements().size(); ++i)
        if (state.measurements()[i].condition == condition &&
            (clamp_shows_idle(state.model(), state.measurements()[i]) || waits_for_alternator(state, i)))
            return true;
    return std::any_of(state.open.begin(), state.open.end(), [&](const OpenCircuit& one) {
        return (state.model().feed && state.model().leads_through(one.branch, *state.model().feed)) ||
               one.branch == state.model().output;
    });
}

}  // namespace voltwright

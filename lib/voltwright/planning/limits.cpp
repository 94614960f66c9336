#include "voltwright/planning/limits.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/profile/words.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

using At = Probe::Point::At;

/// How far the currents of a test are from what the profile says, one standard deviation (common practice, no source):
/// a charger in its first stage keeps its output, a compressor's draw follows the weather.
constexpr double charge_is_off = 0.05, load_is_off = 0.15, losses_are_off = 0.03;
/// A limit is passed by three standard deviations: a sound vehicle has a score or two of readings, and of them hardly one
/// may be called wrong (3 in 1000 each, of the normal distribution).
constexpr double standard_deviations = 3.0;
/// A starter battery below this wants charging before anything is tested: about 75 % (common practice, no source).
constexpr Voltage starter_least = volts(12.4);
/// What a sleeping charger or a switched-off load may take: its electronics.
constexpr Current sleeping = amperes(0.1);
/// An engine that runs lifts its battery by more than this, or nothing charges it. A regulator that holds 12.9 V at 80 degC
/// still does: service manuals give 12.9 to 14.1 V hot (read).
constexpr Voltage charging_lifts = volts(0.3);
/// A battery may stand below its rest by this while its loads run (common practice, no source).
constexpr Voltage loads_sag = volts(0.3);

}  // namespace

BatteryLimits battery_limits(const System& system, const Tables& tables) {
    const Meter meter = meter_of(system.complete);
    const StarterKeys& starter = system.complete.starter;
    Voltage absorption = system.complete.charger.absorption->value;
    for (const SystemRun& run : system.runs)
        if (const auto* charger = std::get_if<ConverterLoad>(&run.load))
            absorption = charger->highest_absorption.voltage;
    const Voltage lowest = starter.lowest_running->value - meter.error(starter.lowest_running->value);
    const auto for_meter = [&](Voltage least) -> Voltage { return least - meter.error(least); };
    return {.starter_rested = for_meter(starter_least),
            // A battery more than four tenths down is charged first (common practice, no source).
            .house_rested = for_meter(rest_voltage(tables, show(*system.complete.battery.chemistry), percent(60))),
            // A smart alternator is let down further.
            .starter_charged = std::min<Voltage>(rested_starter + charging_lifts, lowest),
            .starter_running = lowest,
            // Warm and at speed; above it a regulator has failed (common practice, no source).
            .starter_highest = starter.running->value + volts(0.6),
            .house_charging = rested_house(system, tables) - loads_sag,
            .house_highest = absorption + meter.error(absorption)};
}

std::optional<double> ReadingLimits::passed_by(double reading) const {
    const double size = std::abs(reading);
    if (most && size > *most) return most;
    if (least && size < *least) return least;
    return {};
}

Current most_asleep(const Meter& meter) { return sleeping + meter.error(Current{}); }

TestLimits::TestLimits(const Rig& rig, const System& system, const Plan& plan, const Tables& tables)
    : rig_(rig),
      system_(system),
      plan_(plan),
      tables_(tables),
      meter_(meter_of(system.complete)),
      batteries_(battery_limits(system, tables)) {
    for (const RigElement& element : rig_.elements) expected_.push_back(element.expected);
    // What hangs on one run of a battery changes nothing on its others.
    for (std::size_t i = 0; i < rig_.sections.size(); ++i)
        root_.push_back(rig_.sections[i].from ? root_[*rig_.sections[i].from] : i);
}

std::optional<double> TestLimits::value(const Probe& probe, const RigState& state, const RigSupply& supply,
                                        const std::vector<Resistance>& resistances) const {
    const auto flows = flow(rig_, state, supply, resistances);
    return flows ? std::optional(shown(rig_, probe, *flows, resistances)) : std::nullopt;
}

/// Does what a section resists or feeds change what is shown there?
bool TestLimits::matters(std::size_t section, const Probe& probe) const {
    // The charger takes in what it gives, and what is lost behind it.
    if (section == rig_.output) return true;
    const auto same = [&](std::size_t other) { return root_[section] == root_[other]; };
    if (const auto* through = std::get_if<Probe::Through>(&probe.what)) return same(through->section);
    if (const auto* over = std::get_if<Probe::Over>(&probe.what)) return same(rig_.elements[over->element].section);
    const auto& between = std::get<Probe::Between>(probe.what);
    const auto there = [&](const Probe::Point& point) { return point.at == At::section && same(point.section); };
    return there(between.red) || there(between.black);
}

/// What is shown, and its standard deviation: the meter's, and that of every joint, cable and current.
std::optional<TestLimits::Expectation> TestLimits::expect(const Probe& probe, const RigState& state) const {
    const RigSupply usual = usual_supply(rig_, state, system_, tables_);
    const auto expected = value(probe, state, usual, expected_);
    if (!expected) return {};
    const double meter = meter_.uncertainty(probe, *expected);
    double variance = meter * meter;
    const auto count = [&](const RigSupply& supply, const std::vector<Resistance>& resistances) {
        const auto moved = value(probe, state, supply, resistances);
        if (moved) variance += (*moved - *expected) * (*moved - *expected);
    };
    std::vector<Resistance> moved = expected_;
    const auto move = [&](const std::vector<std::size_t>& elements) {
        for (const std::size_t element : elements) moved[element] += rig_.elements[element].deviation;
        count(usual, moved);
        for (const std::size_t element : elements) moved[element] = expected_[element];
    };
    const auto* over = std::get_if<Probe::Over>(&probe.what);
    for (std::size_t section = 0; section < rig_.sections.size(); ++section) {
        if (!matters(section, probe)) continue;
        // The cables of a run are as long and as warm as each other.
        std::vector<std::size_t> cables;
        for (const Side side : {Side::out, Side::back}) {
            // All other elements of one side act alike, but the one that is measured across itself.
            std::optional<std::size_t> any;
            double sum = 0.0;
            for (const std::size_t element : rig_.sections[section].elements) {
                const RigElement& one = rig_.elements[element];
                if (one.element.side != side) continue;
                if (one.element.kind == Element::Kind::cable) {
                    cables.push_back(element);
                } else if (over && over->element == element) {
                    move({element});
                } else {
                    any = element;
                    sum += in_ohms(one.deviation) * in_ohms(one.deviation);
                }
            }
            if (!any) continue;
            moved[*any] += ohms(std::sqrt(sum));
            count(usual, moved);
            moved[*any] = expected_[*any];
        }
        move(cables);
    }
    RigSupply other = usual;
    if (state.charger_runs()) {
        other.charge *= 1.0 + charge_is_off;
        count(other, expected_);
        other = usual;
        other.losses *= 1.0 + losses_are_off;
        count(other, expected_);
    }
    for (std::size_t i = 0; i < usual.draws.size(); ++i) {
        if (!matters(rig_.loads[i].section, probe) ||
            std::find(state.with.begin(), state.with.end(), rig_.loads[i].name) == state.with.end())
            continue;
        other = usual;
        other.draws[i] *= 1.0 + load_is_off;
        count(other, expected_);
    }
    return Expectation{*expected, std::sqrt(variance)};
}

/// Bounds on either side of what is expected.
std::optional<ReadingLimits> TestLimits::around(const Probe& probe, const RigState& state) const {
    const auto all = expect(probe, state);
    if (!all) return {};
    const auto [expected, deviation] = *all;
    const double size = std::abs(expected), tolerance = standard_deviations * deviation;
    return ReadingLimits{.expected = size,
                         .tolerance = tolerance,
                         .least = std::max(size - tolerance, 0.0),
                         .most = size + tolerance,
                         .at = {}};
}

/// Does a load that is on draw through a section? The charger through its two runs.
bool TestLimits::carries(std::size_t section, const RigState& state) const {
    if (section == rig_.feed || section == rig_.output) return state.charger_runs();
    return std::any_of(rig_.loads.begin(), rig_.loads.end(), [&](const RigLoad& load) {
        if (std::find(state.with.begin(), state.with.end(), load.name) == state.with.end()) return false;
        for (std::optional<std::size_t> at = load.section; at; at = rig_.sections[*at].from)
            if (*at == section) return true;
        return false;
    });
}

std::optional<ReadingLimits> TestLimits::current(std::size_t section, const Probe& probe, const RigState& state) const {
    if (!carries(section, state))
        return ReadingLimits{
            .expected = 0.0, .tolerance = {}, .least = {}, .most = in_amperes(most_asleep(meter_)), .at = {}};
    auto limits = around(probe, state);
    // A charger may hold back while the engine idles.
    if (limits && state.engine == Engine::idling && (section == rig_.feed || section == rig_.output))
        limits->least = {};
    return limits;
}

std::optional<ReadingLimits> TestLimits::place(const Probe::Point& point, const Probe& probe,
                                               const RigState& state) const {
    const auto expected = value(probe, state, usual_supply(rig_, state, system_, tables_), expected_);
    if (!expected) return {};
    ReadingLimits limits{.expected = std::abs(*expected), .tolerance = {}, .least = {}, .most = {}, .at = {}};
    const bool on_section = point.at == At::section;
    const bool starter = point.at == At::starter || (on_section && rig_.sections[point.section].by_starter);
    const bool charged = starter ? state.charging() : state.charger_runs();
    const auto& of = batteries_;
    // What the battery there has at least and at most.
    const Voltage least =
        starter ? (charged ? of.starter_charged : of.starter_rested) : (charged ? of.house_charging : of.house_rested);
    if (charged) limits.most = in_volts(starter ? of.starter_highest : of.house_highest);
    limits.least = in_volts(least);
    if (point.at == At::output && !charged) {
        limits.least = in_volts(fed_least);
        return limits;
    }
    if (point.at == At::output) {
        // What is lost on the way to the battery comes on top of it.
        if (const auto lost = loop(*rig_.output, state)) *limits.most += *lost->most;
        return limits;
    }
    if (on_section && point.section == rig_.feed && state.charger_runs()) {
        limits.least = in_volts(system_.complete.charger.input_off->value + input_margin);
        return limits;
    }
    if (state.with.empty()) {
        if (on_section && !charged) limits.least = in_volts(fed_least);
        return limits;
    }
    // A battery that is just good enough for the test, and all that may be lost on the way.
    Voltage lost = loads_sag;
    if (on_section)
        lost = in_ratio(*plan_.runs[rig_.sections[point.section].plan_run].task.supply.drop_limit) * nominal_voltage;
    limits.least = in_volts(least - lost);
    return limits;
}

std::optional<ReadingLimits> TestLimits::loop(std::size_t section, const RigState& state) const {
    if (!carries(section, state)) return {};
    ReadingLimits both{.expected = 0.0, .tolerance = 0.0, .least = {}, .most = {}, .at = {}};
    const RigSection& run = rig_.sections[section];
    for (const char* pole : {" +", " -"}) {
        const auto probe = probe_across(rig_, {run.near + pole, run.far + pole});
        const auto side = probe ? around(*probe, state) : std::nullopt;
        if (!side) return {};
        both.expected += side->expected;
        *both.tolerance += *side->tolerance;
    }
    both.most = both.expected + *both.tolerance;
    both.at =
        amperes(value(Probe{Probe::Through{section}}, state, usual_supply(rig_, state, system_, tables_), expected_)
                    .value_or(0.0));
    return both;
}

std::optional<std::size_t> TestLimits::section_of(const Probe& probe) const {
    if (const auto* through = std::get_if<Probe::Through>(&probe.what)) return through->section;
    if (const auto* over = std::get_if<Probe::Over>(&probe.what)) return rig_.elements[over->element].section;
    std::optional<std::size_t> last;
    const auto& between = std::get<Probe::Between>(probe.what);
    for (const Probe::Point* point : {&between.red, &between.black}) {
        if (point->at == At::output) last = rig_.output;
        // Sections stand behind the one that they begin at.
        if (point->at == At::section && (!last || *last < point->section)) last = point->section;
    }
    return last;
}

bool TestLimits::feeds(const Probe& probe, std::size_t section) const {
    const auto* between = std::get_if<Probe::Between>(&probe.what);
    const At post = rig_.sections[section].by_starter ? At::starter : At::house;
    return between && !probe.drop() && between->red.at == post && between->black.at == post;
}

std::optional<ReadingLimits> TestLimits::of(const Probe& probe, const RigState& state) const {
    if (const auto* through = std::get_if<Probe::Through>(&probe.what)) return current(through->section, probe, state);
    if (!probe.drop()) {
        const auto& between = std::get<Probe::Between>(probe.what);
        const bool red = between.black.at != At::section ||
                         (between.red.at == At::section && between.red.section >= between.black.section);
        return place(red ? between.red : between.black, probe, state);
    }
    auto limits = around(probe, state);
    if (!limits || !(limits->expected > 0.0)) return {};
    // A drop that is too small proves no fault; what flows decides that.
    limits->least = {};
    if (const auto section = section_of(probe))
        if (const auto flows =
                value(Probe{Probe::Through{*section}}, state, usual_supply(rig_, state, system_, tables_), expected_))
            limits->at = amperes(*flows);
    return limits;
}

}  // namespace voltwright

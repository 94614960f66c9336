#include "voltwright/planning/readings.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/planning/meter.hpp"
#include "voltwright/planning/rig.hpp"
#include "voltwright/vehicle/forms.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace voltwright {

const PlannedReading* TestPlan::find(std::string_view id) const {
    for (const PlannedReading& reading : readings)
        if (reading.id == id) return &reading;
    return nullptr;
}

namespace {

/// How far the currents of a test are from what the profile says, one standard deviation (common practice, no source):
/// a charger in its first stage keeps its output, a compressor's draw follows the weather.
constexpr double charge_is_off = 0.05, load_is_off = 0.15, losses_are_off = 0.03;
constexpr double nineteen_in_twenty = 1.96;
/// A starter battery below this wants charging before anything is tested: about 75 % (common practice, no source).
constexpr Voltage starter_least = volts(12.4);
/// What a sleeping charger or a switched-off load may take: its electronics.
constexpr Current sleeping = amperes(0.1);

class Planning {
public:
    Planning(const System& system, const Plan& plan, const Tables& tables)
        : system_(system),
          plan_(plan),
          tables_(tables),
          rig_(rig_of(system, plan, tables)),
          meter_(meter_of(system.complete)),
          rested_(rested_house(system, tables)),
          limits_(battery_limits(system, tables)) {
        for (const RigElement& element : rig_.elements) expected_.push_back(element.expected);
        // What hangs on one run of a battery changes nothing on its others.
        for (std::size_t i = 0; i < rig_.sections.size(); ++i)
            root_.push_back(rig_.sections[i].from ? root_[*rig_.sections[i].from] : i);
    }

    TestPlan test_plan() && {
        before_connecting();
        engine_off();
        idling();
        driving();
        number();
        for (std::size_t i = 0; i < plan_.runs.size(); ++i)
            if (std::none_of(rig_.sections.begin(), rig_.sections.end(),
                             [&](const RigSection& section) { return section.plan_run == i; }))
                answer_.not_measured.push_back("the run to " + plan_.runs[i].task.to +
                                               (plan_.runs[i].sized() ? ": no size fits it" : ": it is not sized"));
        for (const std::string& load : system_.unfed) answer_.not_measured.push_back(load + ": no run leads to it");
        return std::move(answer_);
    }

private:
    PlannedReading& add(PlannedReading reading) {
        answer_.readings.push_back(std::move(reading));
        return answer_.readings.back();
    }

    // ---- nothing connected yet ---------------------------------------------------------------------------------------

    void before_connecting() {
        for (const RigSection& run : rig_.sections)
            add({.id = {},
                 .stage = Stage::before_connecting,
                 .proves = Proves::isolation,
                 .run = run.run,
                 .across = {end_of(run) + " +", end_of(run) + " -"},
                 .range = MeterRange::ohms});
        for (const RigSection& run : rig_.sections) {
            if (fuse_of(run).empty()) continue;
            add({.id = {},
                 .stage = Stage::before_connecting,
                 .proves = Proves::dead,
                 .run = run.run,
                 .across = {end_of(run)},
                 .range = MeterRange::volts,
                 .expected = Measure{Voltage{}},
                 .most = Measure{volts(0.1)}});
            add({.id = {},
                 .stage = Stage::before_connecting,
                 .proves = Proves::polarity,
                 .run = run.run,
                 .across = {end_of(run)},
                 .range = MeterRange::volts,
                 .expected = Measure{run.by_starter ? rested_starter : rested_},
                 .least = Measure{volts(11.5)}});
        }
    }

    /// The end that a source does not feed: where the charger or the load will be.
    static const std::string& end_of(const RigSection& run) { return run.role == RunRole::output ? run.near : run.far; }

    [[nodiscard]] std::string fuse_of(const RigSection& run) const {
        for (const std::size_t element : run.elements)
            if (rig_.elements[element].element.kind == Element::Kind::fuse) return rig_.elements[element].element.name;
        return {};
    }

    // ---- the engine is off -------------------------------------------------------------------------------------------

    void engine_off() {
        const std::string_view chemistry = show(*system_.complete.battery.chemistry);
        const Voltage full = rest_voltage(tables_, chemistry, percent(100));
        add({.id = {},
             .stage = Stage::engine_off,
             .proves = Proves::rest,
             .across = {"battery"},
             .range = MeterRange::volts,
             .expected = Measure{full},
             .tolerance = Measure{volts(0.1) + meter_.error(full)},
             .least = Measure{limits_.house_rested}});
        if (rig_.feed)
            add({.id = {},
                 .stage = Stage::engine_off,
                 .proves = Proves::rest,
                 .across = {"starter"},
                 .range = MeterRange::volts,
                 .expected = Measure{rested_starter},
                 .tolerance = Measure{volts(0.1) + meter_.error(rested_starter)},
                 .least = Measure{limits_.starter_rested}});
        if (rig_.feed)
            add({.id = {},
                 .stage = Stage::engine_off,
                 .proves = Proves::wake,
                 .run = rig_.sections[*rig_.feed].run,
                 .through = rig_.sections[*rig_.feed].run,
                 .range = MeterRange::amperes,
                 .expected = Measure{Current{}},
                 .most = Measure{sleeping + meter_.error(Current{})}});
        for (std::size_t i = 0; i < rig_.sections.size(); ++i) {
            const RigSection& run = rig_.sections[i];
            if (run.role == RunRole::feed || run.role == RunRole::output) continue;
            const RigState state{Engine::off, behind(i)};
            if (state.with.empty()) {
                answer_.not_measured.push_back("the run to " + run.far + ": nothing in the profile draws through it");
                continue;
            }
            under_load(i, state, Stage::engine_off);
            if (run.role != RunRole::appliance) continue;
            const RunPlan& planned = plan_.runs[run.plan_run];
            const Voltage limit = in_ratio(*planned.task.supply.drop_limit) * nominal_voltage;
            // A battery that is just good enough for the test, and all that may be lost on the way.
            if (const auto at_load = value({run.far}, {}, state))
                add({.id = {},
                     .stage = Stage::engine_off,
                     .proves = Proves::load,
                     .run = run.run,
                     .across = {run.far},
                     .with = state.with,
                     .range = MeterRange::volts,
                     .expected = Measure{volts(*at_load)},
                     .least = Measure{limits_.house_rested - limit - meter_.error(limits_.house_rested)}});
            add({.id = {},
                 .stage = Stage::engine_off,
                 .proves = Proves::off,
                 .run = run.run,
                 .through = run.run,
                 .range = MeterRange::amperes,
                 .expected = Measure{Current{}},
                 .most = Measure{sleeping + meter_.error(Current{})}});
        }
    }

    /// The loads that draw through a section.
    [[nodiscard]] std::vector<std::string> behind(std::size_t section) const {
        std::vector<std::string> names;
        for (const RigLoad& load : rig_.loads)
            for (std::optional<std::size_t> at = load.section; at; at = rig_.sections[*at].from)
                if (*at == section) {
                    names.push_back(load.name);
                    break;
                }
        std::sort(names.begin(), names.end());
        return names;
    }

    /// Current and drops of a run; and, in case they are not right, its joints.
    void under_load(std::size_t section, const RigState& state, Stage stage) {
        const RigSection& run = rig_.sections[section];
        const PlannedReading base{.id = {},
                                  .stage = stage,
                                  .proves = Proves::current,
                                  .run = run.run,
                                  .with = state.with,
                                  .range = MeterRange::amperes};
        PlannedReading current = base;
        current.through = run.run;
        if (!complete(current, state)) return;
        add(current);
        for (const auto& [side, pole] : {std::pair(Side::out, " +"), std::pair(Side::back, " -")}) {
            PlannedReading drop = base;
            drop.proves = side == Side::out ? Proves::plus_side : Proves::minus_side;
            // The red lead where the potential is higher: the current goes from there to the black one.
            drop.across = {run.near + pole, run.far + pole};
            if (side == Side::back) std::swap(drop.across[0], drop.across[1]);
            drop.at = std::get<Current>(*current.expected);
            if (!complete(drop, state)) continue;
            add(drop);
            for (const std::size_t element : run.elements) {
                const Element& one = rig_.elements[element].element;
                if (one.side != side || one.kind == Element::Kind::cable || one.kind == Element::Kind::body) continue;
                PlannedReading joint = base;
                joint.proves = Proves::joint;
                joint.across = {one.name};
                joint.in_doubt = true;
                joint.at = drop.at;
                if (complete(joint, state)) add(joint);
            }
        }
    }

    // ---- the engine runs ---------------------------------------------------------------------------------------------

    void idling() {
        if (rig_.feed) alternator_and_input(Stage::idling, {Engine::idling, {}});
    }

    /// The starter battery while it is charged, and what reaches the charger.
    void alternator_and_input(Stage stage, const RigState& state) {
        add({.id = {},
             .stage = stage,
             .proves = Proves::charging,
             .across = {"starter"},
             .range = MeterRange::volts,
             .expected = Measure{supply_of(state).starter},
             .least = Measure{limits_.starter_running},
             .most = Measure{limits_.starter_highest}});
        if (const auto input = value({"charger"}, {}, state))
            add({.id = {},
                 .stage = stage,
                 .proves = Proves::input,
                 .run = rig_.sections[*rig_.feed].run,
                 .across = {"charger"},
                 .range = MeterRange::volts,
                 .expected = Measure{volts(*input)},
                 .least = Measure{system_.complete.charger.input_off->value + input_margin}});
    }

    void driving() {
        const RigState state{Engine::driving, {}};
        if (rig_.feed) {
            alternator_and_input(Stage::driving, state);
            under_load(*rig_.feed, state, Stage::driving);
        }
        if (!rig_.output) return;
        add({.id = {},
             .stage = Stage::driving,
             .proves = Proves::output,
             .run = rig_.sections[*rig_.output].run,
             .across = {"battery"},
             .range = MeterRange::volts,
             .least = Measure{rested_ - volts(0.3)},
             .most = Measure{limits_.house_highest}});
        under_load(*rig_.output, state, Stage::driving);
    }

    // ---- what a sound vehicle shows ----------------------------------------------------------------------------------

    [[nodiscard]] RigSupply supply_of(const RigState& state) const {
        return usual_supply(rig_, state, system_, tables_);
    }

    [[nodiscard]] std::optional<Probe> probe_of(const std::vector<std::string>& across,
                                                std::string_view through) const {
        return through.empty() ? probe_across(rig_, across) : probe_through(rig_, through);
    }

    [[nodiscard]] std::optional<double> value(const Probe& probe, const RigState& state, const RigSupply& supply,
                                              const std::vector<Resistance>& resistances) const {
        const auto flows = flow(rig_, state, supply, resistances);
        return flows ? std::optional(shown(rig_, probe, *flows, resistances)) : std::nullopt;
    }

    [[nodiscard]] std::optional<double> value(const std::vector<std::string>& across, std::string_view through,
                                              const RigState& state) const {
        const auto probe = probe_of(across, through);
        return probe ? value(*probe, state, supply_of(state), expected_) : std::nullopt;
    }

    /// Does what a section resists or feeds change what is shown there?
    [[nodiscard]] bool matters(std::size_t section, const Probe& probe) const {
        // The charger takes in what it gives, and what is lost behind it.
        if (section == rig_.output) return true;
        const auto same = [&](std::size_t other) { return root_[section] == root_[other]; };
        if (const auto* through = std::get_if<Probe::Through>(&probe.what)) return same(through->section);
        if (const auto* over = std::get_if<Probe::Over>(&probe.what)) return same(rig_.elements[over->element].section);
        const auto& between = std::get<Probe::Between>(probe.what);
        const auto there = [&](const Probe::Point& point) {
            return point.at == Probe::Point::At::section && same(point.section);
        };
        return there(between.red) || there(between.black);
    }

    using Expectation = std::pair<std::optional<double>, double>;

    /// What is shown, and its standard deviation: the meter's, and that of every joint, cable and current.
    [[nodiscard]] Expectation expect(const std::vector<std::string>& across, std::string_view through,
                                     const RigState& state) const {
        const auto probe = probe_of(across, through);
        if (!probe) return {};
        const RigSupply usual = supply_of(state);
        const auto expected = value(*probe, state, usual, expected_);
        if (!expected) return {};
        const double meter = meter_.uncertainty(*probe, *expected);
        double variance = meter * meter;
        const auto count = [&](const RigSupply& supply, const std::vector<Resistance>& resistances) {
            const auto moved = value(*probe, state, supply, resistances);
            if (moved) variance += (*moved - *expected) * (*moved - *expected);
        };
        // All elements of one side of a run act alike, but the one that is measured across itself.
        const auto* over = std::get_if<Probe::Over>(&probe->what);
        std::vector<Resistance> moved = expected_;
        const auto move = [&](std::size_t element, Resistance deviation) {
            moved[element] += deviation;
            count(usual, moved);
            moved[element] = expected_[element];
        };
        for (std::size_t section = 0; section < rig_.sections.size(); ++section) {
            if (!matters(section, *probe)) continue;
            for (const Side side : {Side::out, Side::back}) {
                std::optional<std::size_t> any;
                double sum = 0.0;
                for (const std::size_t element : rig_.sections[section].elements) {
                    const RigElement& one = rig_.elements[element];
                    if (one.element.side != side) continue;
                    if (over && over->element == element) {
                        move(element, one.deviation);
                        continue;
                    }
                    any = element;
                    sum += in_ohms(one.deviation) * in_ohms(one.deviation);
                }
                if (any) move(*any, ohms(std::sqrt(sum)));
            }
        }
        RigSupply other = usual;
        if (state.charging()) {
            other.charge *= 1.0 + charge_is_off;
            count(other, expected_);
            other = usual;
            other.losses *= 1.0 + losses_are_off;
            count(other, expected_);
        }
        for (std::size_t i = 0; i < usual.draws.size(); ++i) {
            if (!matters(rig_.loads[i].section, *probe) ||
                std::find(state.with.begin(), state.with.end(), rig_.loads[i].name) == state.with.end())
                continue;
            other = usual;
            other.draws[i] *= 1.0 + load_is_off;
            count(other, expected_);
        }
        return {expected, std::sqrt(variance)};
    }

    /// Fills in what is expected, and the range of the meter. False where nothing can be.
    bool complete(PlannedReading& reading, const RigState& state) const {
        const auto [expected, deviation] = expect(reading.across, reading.through, state);
        if (!expected) return false;
        const double tolerance = nineteen_in_twenty * deviation;
        if (reading.through.empty()) {
            reading.expected = Measure{volts(*expected)};
            reading.tolerance = Measure{volts(tolerance)};
            reading.most = Measure{volts(*expected + tolerance)};
            reading.range = volts(*expected) <= Meter::millivolt_range ? MeterRange::millivolts : MeterRange::volts;
        } else {
            reading.expected = Measure{amperes(*expected)};
            reading.tolerance = Measure{amperes(tolerance)};
            reading.least = Measure{amperes(std::max(*expected - tolerance, 0.0))};
            reading.most = Measure{amperes(*expected + tolerance)};
        }
        return true;
    }

    // ---- numbers and the way on --------------------------------------------------------------------------------------

    void number() {
        int counted = 0, in_doubt = 0;
        for (PlannedReading& reading : answer_.readings)
            reading.id = reading.in_doubt ? "J" + std::to_string(++in_doubt) : "R" + std::to_string(++counted);
        for (std::size_t i = 0; i < answer_.readings.size(); ++i) {
            PlannedReading& reading = answer_.readings[i];
            switch (reading.proves) {
                case Proves::input: reading.next = first(reading.run, Proves::plus_side); break;
                case Proves::load: reading.next = first(reading.run, Proves::plus_side); break;
                case Proves::plus_side:
                case Proves::minus_side:
                case Proves::joint:
                    // The next joint of the same side, as they stand in the order.
                    if (i + 1 < answer_.readings.size() && answer_.readings[i + 1].in_doubt &&
                        answer_.readings[i + 1].run == reading.run)
                        reading.next = answer_.readings[i + 1].id;
                    break;
                default: break;
            }
        }
    }

    [[nodiscard]] std::string first(std::string_view run, Proves proves) const {
        for (const PlannedReading& reading : answer_.readings)
            if (reading.run == run && reading.proves == proves) return reading.id;
        return {};
    }

    const System& system_;
    const Plan& plan_;
    const Tables& tables_;
    Rig rig_;
    Meter meter_;
    Voltage rested_;
    BatteryLimits limits_;
    std::vector<std::size_t> root_;  ///< of each section, the one at its battery
    std::vector<Resistance> expected_;
    TestPlan answer_;
};

}  // namespace

BatteryLimits battery_limits(const System& system, const Tables& tables) {
    const Meter meter = meter_of(system.complete);
    const StarterKeys& starter = system.complete.starter;
    Voltage absorption = system.complete.charger.absorption->value;
    for (const SystemRun& run : system.runs)
        if (const auto* charger = std::get_if<ConverterLoad>(&run.load))
            absorption = charger->highest_absorption.voltage;
    const Voltage lowest = starter.lowest_running->value;
    return {.starter_rested = starter_least,
            // A battery more than four tenths down is charged first (common practice, no source).
            .house_rested = rest_voltage(tables, show(*system.complete.battery.chemistry), percent(60)),
            .starter_running = lowest - meter.error(lowest),
            // Warm and at speed; above it a regulator has failed (common practice, no source).
            .starter_highest = starter.running->value + volts(0.6),
            .house_highest = absorption + meter.error(absorption)};
}

TestPlan test_plan(const System& system, const Plan& plan, const Tables& tables) {
    return Planning(system, plan, tables).test_plan();
}

}  // namespace voltwright

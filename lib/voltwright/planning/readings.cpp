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
          rested_(rested_house(system, tables)) {
        for (const RigElement& element : rig_.elements) expected_.push_back(element.expected);
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
        // A battery more than four tenths down is charged first (common practice, no source).
        const std::string_view chemistry = show(*system_.complete.battery.chemistry);
        const Voltage full = rest_voltage(tables_, chemistry, percent(100));
        add({.id = {},
             .stage = Stage::engine_off,
             .proves = Proves::rest,
             .across = {"battery"},
             .range = MeterRange::volts,
             .expected = Measure{full},
             .tolerance = Measure{volts(0.1) + meter_.error(full)},
             .least = Measure{rest_voltage(tables_, chemistry, percent(60))}});
        if (rig_.feed)
            add({.id = {},
                 .stage = Stage::engine_off,
                 .proves = Proves::rest,
                 .across = {"starter"},
                 .range = MeterRange::volts,
                 .expected = Measure{rested_starter},
                 .tolerance = Measure{volts(0.1) + meter_.error(rested_starter)},
                 .least = Measure{starter_least}});
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
            if (const auto at_load = expect({run.far}, {}, state); at_load.first)
                add({.id = {},
                     .stage = Stage::engine_off,
                     .proves = Proves::load,
                     .run = run.run,
                     .across = {run.far},
                     .with = state.with,
                     .range = MeterRange::volts,
                     .expected = Measure{volts(*at_load.first)},
                     .least = Measure{rested_ - limit}});
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
        const Voltage lowest = system_.complete.starter.lowest_running->value;
        add({.id = {},
             .stage = stage,
             .proves = Proves::charging,
             .across = {"starter"},
             .range = MeterRange::volts,
             .expected = Measure{supply_of(state).starter},
             .least = Measure{lowest - meter_.error(lowest)},
             .most = Measure{highest_running()}});
        if (const auto input = expect({"charger"}, {}, state); input.first)
            add({.id = {},
                 .stage = stage,
                 .proves = Proves::input,
                 .run = rig_.sections[*rig_.feed].run,
                 .across = {"charger"},
                 .range = MeterRange::volts,
                 .expected = Measure{volts(*input.first)},
                 .least = Measure{system_.complete.charger.input_off->value + input_margin}});
    }

    [[nodiscard]] Voltage highest_running() const {
        // Warm and at speed; above it a regulator has failed (common practice, no source).
        return system_.complete.starter.running->value + volts(0.6);
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
             .most = Measure{highest_absorption() + meter_.error(highest_absorption())}});
        under_load(*rig_.output, state, Stage::driving);
    }

    [[nodiscard]] Voltage highest_absorption() const {
        for (const SystemRun& run : system_.runs)
            if (const auto* charger = std::get_if<ConverterLoad>(&run.load)) return charger->highest_absorption.voltage;
        return system_.complete.charger.absorption->value;
    }

    // ---- what a sound vehicle shows ----------------------------------------------------------------------------------

    [[nodiscard]] RigSupply supply_of(const RigState& state) const {
        const StarterKeys& starter = system_.complete.starter;
        return {.starter = state.engine == Engine::off      ? rested_starter
                           : state.engine == Engine::idling ? starter.lowest_running->value
                                                            : starter.running->value,
                .house = state.charging() ? charging_house : rested_,
                .charge = rig_.charger_output,
                .draws = std::vector<double>(rig_.loads.size(), 1.0),
                .losses = 1.0};
    }

    using Expectation = std::pair<std::optional<double>, double>;

    /// What is shown, and its standard deviation: the meter's, and that of every joint, cable and current.
    [[nodiscard]] Expectation expect(const std::vector<std::string>& across, std::string_view through,
                                     const RigState& state) const {
        const auto probe = through.empty() ? probe_across(rig_, across) : probe_through(rig_, through);
        if (!probe) return {};
        const auto value = [&](const RigSupply& supply, const std::vector<Resistance>& resistances) {
            const auto flows = flow(rig_, state, supply, resistances);
            return flows ? std::optional(shown(rig_, *probe, *flows, resistances)) : std::nullopt;
        };
        const RigSupply usual = supply_of(state);
        const auto expected = value(usual, expected_);
        if (!expected) return {};
        const double meter = meter_.uncertainty(*probe, *expected);
        double variance = meter * meter;
        const auto count = [&](std::optional<double> moved) {
            if (moved) variance += (*moved - *expected) * (*moved - *expected);
        };
        std::vector<Resistance> moved = expected_;
        for (std::size_t i = 0; i < moved.size(); ++i) {
            moved[i] += rig_.elements[i].deviation;
            count(value(usual, moved));
            moved[i] = expected_[i];
        }
        RigSupply other = usual;
        other.charge *= 1.0 + charge_is_off;
        count(value(other, expected_));
        other = usual;
        other.losses *= 1.0 + losses_are_off;
        count(value(other, expected_));
        for (std::size_t i = 0; i < usual.draws.size(); ++i) {
            other = usual;
            other.draws[i] *= 1.0 + load_is_off;
            count(value(other, expected_));
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
    std::vector<Resistance> expected_;
    TestPlan answer_;
};

}  // namespace

TestPlan test_plan(const System& system, const Plan& plan, const Tables& tables) {
    return Planning(system, plan, tables).test_plan();
}

}  // namespace voltwright

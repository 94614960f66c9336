#include "voltwright/planning/readings.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/planning/limits.hpp"
#include "voltwright/planning/meter.hpp"
#include "voltwright/planning/rig.hpp"
#include "voltwright/profile/words.hpp"

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

class Planning {
public:
    Planning(const System& system, const Plan& plan, const Tables& tables)
        : system_(system),
          plan_(plan),
          tables_(tables),
          rig_(rig_of(system, plan, tables)),
          meter_(meter_of(system.complete)),
          rested_(rested_house(system, tables)),
          limits_(rig_, system, plan, tables) {}

    TestPlan test_plan() && {
        before_connecting();
        engine_off();
        idling();
        driving();
        number();
        for (std::size_t i = 0; i < plan_.runs.size(); ++i)
            if (std::none_of(rig_.sections.begin(), rig_.sections.end(),
                             [&](const RigSection& section) { return section.plan_run == i; }))
                answer_.not_measured.push_back("the run to " + plan_.runs[i].task.to.name +
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
                 .least = Measure{fed_least}});
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
             .least = Measure{batteries().house_rested}});
        if (rig_.feed)
            add({.id = {},
                 .stage = Stage::engine_off,
                 .proves = Proves::rest,
                 .across = {"starter"},
                 .range = MeterRange::volts,
                 .expected = Measure{rested_starter},
                 .tolerance = Measure{volts(0.1) + meter_.error(rested_starter)},
                 .least = Measure{batteries().starter_rested}});
        if (rig_.feed)
            add({.id = {},
                 .stage = Stage::engine_off,
                 .proves = Proves::wake,
                 .run = rig_.sections[*rig_.feed].run,
                 .through = rig_.sections[*rig_.feed].run,
                 .range = MeterRange::amperes,
                 .expected = Measure{Current{}},
                 .most = Measure{most_asleep(meter_)}});
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
            if (const auto there = limits_at({run.far}, {}, state))
                add({.id = {},
                     .stage = Stage::engine_off,
                     .proves = Proves::load,
                     .run = run.run,
                     .across = {run.far},
                     .with = state.with,
                     .range = MeterRange::volts,
                     .expected = Measure{volts(there->expected)},
                     .least = Measure{volts(*there->least)}});
            add({.id = {},
                 .stage = Stage::engine_off,
                 .proves = Proves::off,
                 .run = run.run,
                 .through = run.run,
                 .range = MeterRange::amperes,
                 .expected = Measure{Current{}},
                 .most = Measure{most_asleep(meter_)}});
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
        if (const auto there = limits_at({"starter"}, {}, state))
            add({.id = {},
                 .stage = stage,
                 .proves = Proves::charging,
                 .across = {"starter"},
                 .range = MeterRange::volts,
                 .expected = Measure{volts(there->expected)},
                 .least = Measure{volts(*there->least)},
                 .most = Measure{volts(*there->most)}});
        if (const auto input = limits_at({"charger"}, {}, state))
            add({.id = {},
                 .stage = stage,
                 .proves = Proves::input,
                 .run = rig_.sections[*rig_.feed].run,
                 .across = {"charger"},
                 .range = MeterRange::volts,
                 .expected = Measure{volts(input->expected)},
                 .least = Measure{volts(*input->least)}});
    }

    void driving() {
        const RigState state{Engine::driving, {}};
        if (rig_.feed) {
            alternator_and_input(Stage::driving, state);
            under_load(*rig_.feed, state, Stage::driving);
        }
        if (!rig_.output) return;
        if (const auto there = limits_at({"battery"}, {}, state))
            add({.id = {},
                 .stage = Stage::driving,
                 .proves = Proves::output,
                 .run = rig_.sections[*rig_.output].run,
                 .across = {"battery"},
                 .range = MeterRange::volts,
                 .least = Measure{volts(*there->least)},
                 .most = Measure{volts(*there->most)}});
        under_load(*rig_.output, state, Stage::driving);
    }

    // ---- what a sound vehicle shows ----------------------------------------------------------------------------------

    [[nodiscard]] const BatteryLimits& batteries() const { return limits_.batteries(); }

    [[nodiscard]] std::optional<ReadingLimits> limits_at(const std::vector<std::string>& across,
                                                         std::string_view through, const RigState& state) const {
        const auto probe = through.empty() ? probe_across(rig_, across) : probe_through(rig_, through);
        return probe ? limits_.of(*probe, state) : std::nullopt;
    }

    /// Fills in what is expected, and the range of the meter. False where nothing can be.
    bool complete(PlannedReading& reading, const RigState& state) const {
        const auto limits = limits_at(reading.across, reading.through, state);
        if (!limits || !limits->tolerance) return false;
        const bool clamp = !reading.through.empty();
        const auto measure = [&](double x) { return clamp ? Measure{amperes(x)} : Measure{volts(x)}; };
        reading.expected = measure(limits->expected);
        reading.tolerance = measure(*limits->tolerance);
        if (limits->least) reading.least = measure(*limits->least);
        if (limits->most) reading.most = measure(*limits->most);
        if (!clamp)
            reading.range =
                volts(limits->expected) <= Meter::millivolt_range ? MeterRange::millivolts : MeterRange::volts;
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
    TestLimits limits_;
    TestPlan answer_;
};

}  // namespace

TestPlan test_plan(const System& system, const Plan& plan, const Tables& tables) {
    return Planning(system, plan, tables).test_plan();
}

}  // namespace voltwright

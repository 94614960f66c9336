#include "voltwright/diagnosis/test_plan.hpp"

#include "voltwright/diagnosis/run_readings.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

const PlannedReading* TestPlan::find(std::string_view id) const {
    for (const PlannedReading& reading : readings)
        if (reading.id == id) return &reading;
    return nullptr;
}

namespace {

/// With its fuse out the far end of a run has less than this: what a meter's input picks up (data/practice/voltages.toml).
const Voltage dead_most = in_practice(PracticeVoltage::dead_most);
/// A rested battery is within this of its table's voltage, beside what the meter is off (data/practice/voltages.toml).
const Voltage rest_strays = in_practice(PracticeVoltage::rest_strays);

struct Writer {
    const SoundVehicle& sound;
    TestPlan plan = {};

    [[nodiscard]] const CircuitModel& model() const { return sound.model; }
    [[nodiscard]] const BatteryLimits& batteries() const { return sound.batteries; }
};

void add(Writer& writer, std::vector<PlannedReading> readings) {
    for (PlannedReading& one : readings) writer.plan.readings.push_back(std::move(one));
}

// ---- nothing connected yet -------------------------------------------------------------------------------------------

/// The end that a source does not feed: where the charger or the load will be.
const std::string& unfed_end(const Branch& run) { return run.role == RunRole::output ? run.near : run.far; }

bool has_fuse(const CircuitModel& model, const Branch& run) {
    return std::any_of(run.elements.begin(), run.elements.end(), [&](std::size_t element) {
        return model.elements[element].element.kind == Element::Kind::fuse;
    });
}

void before_connecting(Writer& writer) {
    const auto reading = [&](Proves proves, const Branch& run, MeterRange range) -> PlannedReading& {
        writer.plan.readings.push_back(reading_of(Stage::before_connecting, proves, range, run.run));
        return writer.plan.readings.back();
    };
    const Voltage rested = rested_house(writer.sound.system, writer.sound.tables);
    for (const Branch& run : writer.model().branches)
        reading(Proves::isolation, run, MeterRange::ohms).across = {unfed_end(run) + " +", unfed_end(run) + " -"};
    for (const Branch& run : writer.model().branches) {
        if (!has_fuse(writer.model(), run)) continue;
        PlannedReading& dead = reading(Proves::dead, run, MeterRange::volts);
        dead.across = {unfed_end(run)};
        dead.expected = Measure{Voltage{}};
        dead.most = Measure{dead_most};
        PlannedReading& polarity = reading(Proves::polarity, run, MeterRange::volts);
        polarity.across = {unfed_end(run)};
        polarity.expected = Measure{run.by_starter ? rested_starter : rested};
        polarity.least = Measure{fed_least};
    }
}

// ---- the engine is off -----------------------------------------------------------------------------------------------

void battery_at_rest(Writer& writer, const std::string& battery, Voltage expected, Voltage least) {
    PlannedReading reading = reading_of(Stage::engine_off, Proves::rest, MeterRange::volts);
    reading.across = {battery};
    reading.expected = Measure{expected};
    reading.tolerance = Measure{rest_strays + writer.sound.meter.error(expected)};
    reading.least = Measure{least};
    writer.plan.readings.push_back(std::move(reading));
}

/// What takes nothing then, but what its electronics may.
void next_to_nothing(Writer& writer, Proves proves, const Branch& run) {
    PlannedReading reading = reading_of(Stage::engine_off, proves, MeterRange::amperes, run.run);
    reading.through = run.run;
    reading.expected = Measure{Current{}};
    reading.most = Measure{most_asleep(writer.sound.meter)};
    writer.plan.readings.push_back(std::move(reading));
}

void volts_at_load(Writer& writer, const Branch& run, const TestCondition& condition) {
    PlannedReading reading = reading_of(Stage::engine_off, Proves::load, MeterRange::volts, run.run);
    reading.across = {run.far};
    reading.with = condition.with;
    const auto there = limits_at(writer.sound, reading, condition);
    if (!there) return;
    reading.expected = there->expected.measure();
    reading.least = there->least->measure();
    writer.plan.readings.push_back(std::move(reading));
}

/// The loads that draw through a branch.
std::vector<std::string> loads_behind(const CircuitModel& model, std::size_t branch) {
    std::vector<std::string> names;
    for (const CircuitLoad& load : model.loads)
        if (model.leads_through(branch, load.branch)) names.push_back(load.name);
    std::sort(names.begin(), names.end());
    return names;
}

void run_with_engine_off(Writer& writer, std::size_t branch) {
    const Branch& run = writer.model().branches[branch];
    if (run.role == RunRole::feed || run.role == RunRole::output) return;
    const TestCondition condition{Engine::off, loads_behind(writer.model(), branch)};
    if (condition.with.empty()) {
        writer.plan.not_measured.push_back({NotMeasured::Reason::nothing_draws, run.far});
        return;
    }
    add(writer, readings_under_load(writer.sound, branch, condition, Stage::engine_off));
    if (run.role != RunRole::appliance) return;
    volts_at_load(writer, run, condition);
    next_to_nothing(writer, Proves::off, run);
}

void engine_off(Writer& writer) {
    const SoundVehicle& sound = writer.sound;
    battery_at_rest(writer, "battery", house_at_rest(sound.system, percent(100), sound.tables),
                    writer.batteries().house_rested);
    if (writer.model().feed) {
        battery_at_rest(writer, "starter", rested_starter, writer.batteries().starter_rested);
        next_to_nothing(writer, sound.system.relay ? Proves::opens : Proves::wake,
                        writer.model().branches[*writer.model().feed]);
    }
    for (std::size_t i = 0; i < writer.model().branches.size(); ++i) run_with_engine_off(writer, i);
}

// ---- the engine runs -------------------------------------------------------------------------------------------------

/// The starter battery while it is charged.
void alternator(Writer& writer, Stage stage, const TestCondition& condition) {
    PlannedReading charging = reading_of(stage, Proves::charging, MeterRange::volts);
    charging.across = {"starter"};
    if (const auto there = limits_at(writer.sound, charging, condition)) {
        charging.expected = there->expected.measure();
        charging.least = there->least->measure();
        charging.most = there->most->measure();
        writer.plan.readings.push_back(std::move(charging));
    }
}

/// And what reaches the charger.
void alternator_and_input(Writer& writer, Stage stage, const TestCondition& condition) {
    alternator(writer, stage, condition);
    PlannedReading input =
        reading_of(stage, Proves::input, MeterRange::volts, writer.model().branches[*writer.model().feed].run);
    input.across = {"charger"};
    if (const auto there = limits_at(writer.sound, input, condition)) {
        input.expected = there->expected.measure();
        input.least = there->least->measure();
        writer.plan.readings.push_back(std::move(input));
    }
}

/// What flows through a relay follows from the state of the battery, so only bounds are right: what its contacts lose at
/// most, and what the battery sees between the volts at which the relay stays closed and the alternator's.
void relay_closed(Writer& writer) {
    const SoundVehicle& sound = writer.sound;
    const CircuitModel& model = writer.model();
    alternator(writer, Stage::driving, {Engine::driving, {}});
    for (const auto& branch : {model.feed, model.output}) {
        if (!branch) continue;
        for (const std::size_t element : model.branches[*branch].elements) {
            const CircuitElement& one = model.elements[element];
            if (one.element.joint != "relay") continue;
            const JointRow* row = find_joint(sound.tables, one.element.joint, square_millimetres(10));
            const RunPlan& run = sound.plan.runs[model.branches[*branch].plan_run];
            PlannedReading contacts =
                reading_of(Stage::driving, Proves::closes, MeterRange::millivolts, model.branches[*branch].run);
            contacts.across = {one.element.name};
            contacts.most = Measure{Voltage(run.choice.design.current * (row ? row->high : one.expected))};
            writer.plan.readings.push_back(std::move(contacts));
        }
    }
    if (!model.output) return;
    PlannedReading battery =
        reading_of(Stage::driving, Proves::linked, MeterRange::volts, model.branches[*model.output].run);
    battery.across = {"battery"};
    const Voltage running = sound.system.starter.running;
    // Even half empty, stiff and with everything on it has more than this.
    const LinkFlow& flow = *sound.plan.runs[model.branches[*model.output].plan_run].link;
    battery.least = Measure{Voltage(std::min(flow.worst.terminals, flow.usual.terminals) - loads_sag)};
    battery.most = Measure{Voltage(running + sound.meter.error(running))};
    writer.plan.readings.push_back(std::move(battery));
}

void idling(Writer& writer) {
    if (writer.sound.system.relay) return;
    if (writer.model().feed) alternator_and_input(writer, Stage::idling, {Engine::idling, {}});
}

void driving(Writer& writer) {
    if (writer.sound.system.relay) return relay_closed(writer);
    const TestCondition condition{Engine::driving, {}};
    if (writer.model().feed) {
        alternator_and_input(writer, Stage::driving, condition);
        add(writer, readings_under_load(writer.sound, *writer.model().feed, condition, Stage::driving));
    }
    if (!writer.model().output) return;
    PlannedReading output = reading_of(Stage::driving, Proves::output, MeterRange::volts,
                                       writer.model().branches[*writer.model().output].run);
    output.across = {"battery"};
    if (const auto there = limits_at(writer.sound, output, condition)) {
        output.least = there->least->measure();
        output.most = there->most->measure();
        writer.plan.readings.push_back(std::move(output));
    }
    add(writer, readings_under_load(writer.sound, *writer.model().output, condition, Stage::driving));
}

// ---- numbers and the way on ------------------------------------------------------------------------------------------

std::string first_of(const TestPlan& plan, std::string_view run, Proves proves) {
    for (const PlannedReading& reading : plan.readings)
        if (reading.run == run && reading.proves == proves) return reading.id;
    return {};
}

/// What to measure when a reading is not right; empty where the words tell.
std::string way_on(const TestPlan& plan, std::size_t from) {
    const PlannedReading& reading = plan.readings[from];
    switch (reading.proves) {
        case Proves::input:
        case Proves::load: return first_of(plan, reading.run, Proves::plus_side);
        case Proves::plus_side:
        case Proves::minus_side:
        case Proves::joint: {
            // The next joint of the same side, as they stand in the order.
            if (from + 1 == plan.readings.size()) return {};
            const PlannedReading& next = plan.readings[from + 1];
            return next.in_doubt && next.run == reading.run ? next.id : std::string();
        }
        default: return {};
    }
}

void number(TestPlan& plan) {
    int counted = 0, in_doubt = 0;
    for (PlannedReading& reading : plan.readings)
        reading.id = reading.in_doubt ? "J" + std::to_string(++in_doubt) : "R" + std::to_string(++counted);
    for (std::size_t i = 0; i < plan.readings.size(); ++i) plan.readings[i].next = way_on(plan, i);
}

void name_what_is_left_out(Writer& writer) {
    const auto& branches = writer.model().branches;
    for (std::size_t i = 0; i < writer.sound.plan.runs.size(); ++i) {
        const RunPlan& run = writer.sound.plan.runs[i];
        if (std::any_of(branches.begin(), branches.end(), [&](const Branch& one) { return one.plan_run == i; }))
            continue;
        writer.plan.not_measured.push_back(
            {is_of_the_sun(run) ? NotMeasured::Reason::by_the_sun : NotMeasured::Reason::no_size_fits,
             run.task.to.name});
    }
    for (const std::string& load : writer.sound.system.unfed)
        writer.plan.not_measured.push_back({NotMeasured::Reason::no_run, load});
}

}  // namespace

TestPlan test_plan(const SoundVehicle& sound) {
    Writer writer{.sound = sound,
                  .plan = {.readings = {}, .not_measured = {}, .relay = sound.system.relay.has_value()}};
    before_connecting(writer);
    engine_off(writer);
    idling(writer);
    driving(writer);
    number(writer.plan);
    name_what_is_left_out(writer);
    return std::move(writer.plan);
}

TestPlan test_plan(const System& system, const Plan& plan, const Tables& tables) {
    const CircuitModel model = circuit_model_of(system, plan, tables);
    return test_plan(sound_vehicle(model, system, plan, tables));
}

}  // namespace voltwright

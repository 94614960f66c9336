// The limits that the list of readings prints decide: every row of it is fed back, within and beyond, alone and together.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/diagnosis/test_plan.hpp"
#include "voltwright/diagnosis/diagnose.hpp"
#include "voltwright/diagnosis/meter.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

const std::vector<std::string> examples = {"simplest",       "cool-box-at-night", "surf-wagon",
                                           "arctic-library", "seed-collector",    "bee-van"};

/// Without the readings that it may bring.
std::string example_text(const std::string& name) {
    std::ifstream file(VOLTWRIGHT_TOP_FOLDER "/examples/profiles/" + name + ".toml");
    const std::string text(std::istreambuf_iterator<char>(file), {});
    return text.substr(0, text.find("[[reading]]"));
}

/// Of runs that nobody described: the charger's output and the way to the fridge are assumed.
const std::string bare = R"(
[trip]
low  = "5 degC"
high = "30 degC"
[battery]
chemistry = "lfp"
capacity  = "100 Ah"
[charger]
output = "30 A"
[[run]]
to     = "charger"
length = "5 m"
[[fridge]]
name  = "cool box"
draw  = "50 W"
rated = [{ around = "25 degC", a_day = "20 Ah" }]
)";

double number_of(const Measure& measure) {
    return std::holds_alternative<Current>(measure) ? in_amperes(std::get<Current>(measure))
                                                    : in_volts(std::get<Voltage>(measure));
}

/// One row of the list as the profile takes it back.
std::string written(const PlannedReading& row, double value) {
    std::string text = "[[reading]]\n";
    char figure[40];
    std::snprintf(figure, sizeof figure, "%.5f", value);
    if (row.through.empty()) {
        text += "across = [";
        for (const std::string& point : row.across) text += "\"" + point + "\", ";
        text += "]\nvoltage = \"" + std::string(figure) + " V\"\n";
    } else {
        text += "through = \"" + row.through + "\"\ncurrent = \"" + std::string(figure) + " A\"\n";
    }
    if (!row.with.empty()) {
        text += "with = [";
        for (const std::string& load : row.with) text += "\"" + load + "\", ";
        text += "]\n";
    }
    if (row.stage == Stage::idling) text += "engine = \"idling\"\n";
    if (row.stage == Stage::driving) text += "engine = \"driving\"\n";
    return text;
}

/// What the profile can hold: no ohms, and no row for which a fuse is taken out.
bool can_be_written(const PlannedReading& row) { return row.proves != Proves::isolation && row.proves != Proves::dead; }

double usual_value(const PlannedReading& row) {
    return row.expected ? number_of(*row.expected) : (number_of(*row.least) + number_of(*row.most)) / 2.0;
}

struct Vehicle {
    explicit Vehicle(const std::string& text)
        : system(system_of_text(text)),
          plan(make_plan(system, built_in_tables(), {.ladders = Ladder::needed})),
          model(circuit_model_of(system, plan, built_in_tables())),
          rows(test_plan(system, plan).readings) {}

    [[nodiscard]] Diagnosis alone(const PlannedReading& row, double value) const {
        const auto probe = row.through.empty() ? probe_across(model, row.across) : probe_through(model, row.through);
        REQUIRE(probe);
        const TestCondition state{row.stage == Stage::driving  ? Engine::driving
                                  : row.stage == Stage::idling ? Engine::idling
                                                               : Engine::off,
                                  row.with};
        const MeterValue shown = probe->clamp() ? MeterValue(amperes(value)) : MeterValue(volts(value));
        return diagnose(model, {{0, *probe, state, shown, meter_of(system.meter).uncertainty(shown)}}, system, plan);
    }

    System system;
    Plan plan;
    CircuitModel model;
    std::vector<PlannedReading> rows;
};

bool any_grave(const Diagnosis& diagnosis) {
    return std::any_of(diagnosis.anomalies.begin(), diagnosis.anomalies.end(),
                       [](const Anomaly& one) { return one.grave(); });
}

}  // namespace

/// The sanitizers' build looks at some rows only.
#ifdef VOLTWRIGHT_WATCHED_LIBRARY
constexpr int every = 4;
#else
constexpr int every = 1;
#endif

TEST_CASE("a reading beyond its limit, alone, is always told and never nothing wrong") {
    int fed = 0, seen = 0;
    for (const std::string& name : examples) {
        const Vehicle vehicle(example_text(name));
        for (const PlannedReading& row : vehicle.rows) {
            if (!can_be_written(row) || seen++ % every != 0) continue;
            std::vector<double> beyond;
            if (row.most)
                for (const double times : {1.01, 1.5, 2.0, 2.5, 4.0}) beyond.push_back(times * number_of(*row.most));
            if (row.least && number_of(*row.least) > 0.0)
                for (const double times : {0.99, 0.9, 0.75, 0.5, 0.1}) beyond.push_back(times * number_of(*row.least));
            for (const double value : beyond) {
                CAPTURE(name);
                CAPTURE(row.id);
                CAPTURE(value);
                const Diagnosis diagnosis = vehicle.alone(row, value);
                CHECK(diagnosis.verdict != Verdict::nothing_wrong);
                CHECK(diagnosis.verdict != Verdict::too_little);
                CHECK(any_grave(diagnosis));
                ++fed;
            }
        }
    }
    MESSAGE(fed << " readings beyond their limits");
    CHECK(fed > 500 / every);
}

TEST_CASE("a reading within its limits, alone, raises no alarm") {
    for (const std::string& name : examples) {
        const Vehicle vehicle(example_text(name));
        for (const PlannedReading& row : vehicle.rows) {
            if (!can_be_written(row)) continue;
            std::vector<double> within = {usual_value(row)};
            if (row.most) within.push_back(0.99 * number_of(*row.most));
            if (row.least) within.push_back(1.01 * number_of(*row.least));
            for (const double value : within) {
                CAPTURE(name);
                CAPTURE(row.id);
                CAPTURE(value);
                const Diagnosis diagnosis = vehicle.alone(row, value);
                CHECK((diagnosis.verdict == Verdict::nothing_wrong || diagnosis.verdict == Verdict::too_little));
                CHECK_FALSE(any_grave(diagnosis));
                CHECK(diagnosis.candidates.empty());
            }
        }
    }
}

TEST_CASE("the whole list, written back as it is expected, is accepted and clean, assumed runs too") {
    std::vector<std::string> texts = {bare};
    for (const std::string& name : examples) texts.push_back(example_text(name));
    for (const std::string& text : texts) {
        std::string readings;
        int rows = 0;
        for (const PlannedReading& row : Vehicle(text).rows)
            if (can_be_written(row) && row.stage != Stage::before_connecting) {
                readings += written(row, usual_value(row));
                ++rows;
            }
        REQUIRE(rows > 10);
        const Vehicle vehicle(text + readings);
        const Diagnosis diagnosis = diagnose(vehicle.system, vehicle.plan);
        CAPTURE(text);
        CHECK(diagnosis.verdict == Verdict::nothing_wrong);
        CHECK_FALSE(any_grave(diagnosis));
        CHECK(diagnosis.candidates.empty());
        for (const Anomaly& remark : diagnosis.anomalies) CHECK(remark.kind != Anomaly::Kind::not_understood);
        for (const Comparison& one : diagnosis.comparisons) CHECK(one.as_it_should());
    }
}

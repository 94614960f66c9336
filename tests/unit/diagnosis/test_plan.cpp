#include "journeys.hpp"
#include "testing.hpp"

#include "voltwright/diagnosis/diagnose.hpp"
#include "voltwright/diagnosis/test_plan.hpp"
#include "voltwright/files/document.hpp"
#include "voltwright/messages/fault_candidates.hpp"
#include "voltwright/messages/readings.hpp"
#include "voltwright/vehicle/elements.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>

namespace voltwright {

namespace {

System example(const std::string& name) {
    std::ifstream file(VOLTWRIGHT_TOP_FOLDER "/examples/profiles/" + name + ".toml");
    return testing::system_of_text(std::string(std::istreambuf_iterator<char>(file), {}));
}

System with(const std::string& name, const std::string& more) {
    std::ifstream file(VOLTWRIGHT_TOP_FOLDER "/examples/profiles/" + name + ".toml");
    return testing::system_of_text(std::string(std::istreambuf_iterator<char>(file), {}) + more);
}

TestPlan plan_of(const System& system) { return test_plan(system, make_plan(system)); }

const PlannedReading* reading(const TestPlan& plan, Proves proves, std::string_view run) {
    for (const PlannedReading& one : plan.readings)
        if (one.proves == proves && one.run == run && !one.in_doubt) return &one;
    return nullptr;
}

std::vector<std::string> names_of(const SystemRun& run) {
    std::vector<std::string> names;
    for (const Element& element : elements_of(run)) names.push_back(element.name);
    return names;
}

}  // namespace

TEST_CASE("a run's elements stand in the order in which the current meets them") {
    const System system = example("seed-collector");
    CHECK(names_of(system.runs[0]) ==
          std::vector<std::string>{"feed battery clamp at starter +", "feed fuse at starter", "feed cable +",
                                   "feed two-pole plug 50 A +", "feed lug at charger +", "feed lug at charger -",
                                   "feed two-pole plug 50 A -", "feed cable -", "feed lug at starter -"});
    // The charger's output is fused where the battery could feed it: at its far end.
    CHECK(names_of(system.runs[1]) == std::vector<std::string>{"battery lug at charger output +", "battery cable +",
                                                               "battery fuse at battery", "battery lug at battery +",
                                                               "battery lug at battery -", "battery cable -",
                                                               "battery lug at charger output -"});
    // A body return has no black cable and no lugs of its own.
    CHECK(names_of(example("surf-wagon").runs[0]) == std::vector<std::string>{"feed lug at starter +",
                                                                              "feed fuse at starter", "feed cable +",
                                                                              "feed lug at charger +", "feed body"});
}

TEST_CASE("every example's elements have names of their own") {
    for (const char* name : {"simplest", "seed-collector", "bee-van", "arctic-library", "surf-wagon"}) {
        std::vector<std::string> points = probe_points(example(name).runs);
        std::sort(points.begin(), points.end());
        CHECK(std::adjacent_find(points.begin(), points.end()) == points.end());
    }
}

TEST_CASE("nothing is connected until isolation, dead ends and polarity have been read") {
    const TestPlan plan = plan_of(example("simplest"));
    const auto stage = [](const PlannedReading& one) { return one.stage; };
    CHECK(std::is_sorted(plan.readings.begin(), plan.readings.end(),
                         [&](const auto& a, const auto& b) { return stage(a) < stage(b); }));
    for (const char* run : {"feed", "battery", "fridge"}) {
        CHECK(reading(plan, Proves::isolation, run));
        CHECK(reading(plan, Proves::dead, run));
        CHECK(reading(plan, Proves::polarity, run));
    }
}

TEST_CASE("with the engine off for five minutes the charger takes nothing: a reading of its own") {
    const TestPlan plan = plan_of(example("simplest"));
    const PlannedReading* wake = reading(plan, Proves::wake, "feed");
    REQUIRE(wake);
    CHECK(wake->stage == Stage::engine_off);
    CHECK(wake->through == "feed");
    CHECK(std::get<Current>(*wake->expected) == Current{});
    CHECK(std::get<Current>(*wake->most) < amperes(0.5));
    CHECK(words_of(*wake).with == "engine off for five minutes");
}

TEST_CASE("nothing is read as ohms but isolation, and no drop without a load") {
    for (const char* name : {"simplest", "seed-collector", "bee-van", "arctic-library", "surf-wagon"}) {
        const TestPlan plan = plan_of(example(name));
        for (const PlannedReading& one : plan.readings) {
            CAPTURE(one.id);
            if (one.range == MeterRange::ohms) CHECK(one.proves == Proves::isolation);
            const bool drop =
                one.proves == Proves::plus_side || one.proves == Proves::minus_side || one.proves == Proves::joint;
            if (!drop) continue;
            CHECK((one.stage == Stage::driving || !one.with.empty()));
            CHECK(std::get<Voltage>(*one.expected) > Voltage{});
            CHECK(*one.at > Current{});
        }
    }
}

TEST_CASE("drops of a run add up to what its plan says is lost, near enough for a meter") {
    const System system = example("seed-collector");
    const Plan plan = make_plan(system);
    const TestPlan readings = test_plan(system, plan);
    for (const RunPlan& run : plan.runs) {
        const auto* plus = reading(readings, Proves::plus_side, *run.task.run.name);
        const auto* minus = reading(readings, Proves::minus_side, *run.task.run.name);
        REQUIRE(plus);
        REQUIRE(minus);
        const Voltage both = std::get<Voltage>(*plus->expected) + std::get<Voltage>(*minus->expected);
        // The plan has hot cables and the volts of its own rules; the meter a mild day.
        CHECK(in_volts(both) == doctest::Approx(in_volts(run.taken()->drop->drop)).epsilon(0.15));
    }
}

TEST_CASE("each way on leads to a reading that is there, and the last joint to none") {
    const TestPlan plan = plan_of(example("bee-van"));
    for (const PlannedReading& one : plan.readings)
        if (!one.next.empty()) {
            const PlannedReading* next = plan.find(one.next);
            REQUIRE(next);
            CHECK(next->run == one.run);
        }
    for (const char* run : {"feed", "battery"})
        for (const Proves side : {Proves::plus_side, Proves::minus_side}) {
            CAPTURE(run);
            const PlannedReading* one = reading(plan, side, run);
            REQUIRE(one);
            // From the side to its first joint, and on to the last, each met once.
            int joints = 0;
            while (!one->next.empty() && joints < 100) {
                one = plan.find(one->next);
                REQUIRE(one);
                CHECK(one->in_doubt);
                ++joints;
            }
            CHECK(joints >= 1);
            CHECK(joints < 100);
        }
}

TEST_CASE("a battery that is good enough for the test is good enough at the far end of a sound run") {
    // Sealed lead at 60 % shows 12.42 V; 3 % of 12 V may be lost on the way, and the meter may be off some 0.08 V.
    const TestPlan plan = plan_of(example("simplest"));
    const auto rest = std::find_if(plan.readings.begin(), plan.readings.end(), [](const PlannedReading& one) {
        return one.proves == Proves::rest && one.across.front() == "battery";
    });
    REQUIRE(rest != plan.readings.end());
    const PlannedReading* load = reading(plan, Proves::load, "fridge");
    const PlannedReading* out = reading(plan, Proves::plus_side, "fridge");
    const PlannedReading* back = reading(plan, Proves::minus_side, "fridge");
    REQUIRE(load);
    REQUIRE(out);
    REQUIRE(back);
    // The least of the battery, less the most of either side: still right.
    CHECK(std::get<Voltage>(*load->least) <
          std::get<Voltage>(*rest->least) - std::get<Voltage>(*out->most) - std::get<Voltage>(*back->most));
}

TEST_CASE("a drop behind which no current flows tells nothing, and swapped leads are told") {
    const System system = with("simplest",
                               "[[reading]]\nacross = [\"starter +\", \"charger +\"]\nvoltage = \"0 mV\"\n"
                               "[[reading]]\nacross = [\"battery +\", \"fridge +\"]\nwith = [\"fridge\"]\nvoltage = "
                               "\"-130 mV\"\n");
    const Diagnosis diagnosis = diagnose(system, make_plan(system));
    REQUIRE(diagnosis.anomalies.size() == 2);
    CHECK(diagnosis.anomalies[0].kind == Anomaly::Kind::leads_swapped);
    CHECK(diagnosis.anomalies[0].measurement == 1);
    CHECK(diagnosis.anomalies[1].kind == Anomaly::Kind::no_current);
    CHECK(diagnosis.verdict == Verdict::nothing_wrong);
}

TEST_CASE("a charger that takes current from a standing engine, and one that takes none from a running one") {
    const auto remark = [](const std::string& reading) {
        const System system = with("simplest", "[[reading]]\nthrough = \"feed\"\n" + reading);
        const Diagnosis diagnosis = diagnose(system, make_plan(system));
        REQUIRE(diagnosis.anomalies.size() == 1);
        return diagnosis.anomalies[0].kind;
    };
    CHECK(remark("current = \"2.4 A\"\n") == Anomaly::Kind::charger_awake);
    CHECK(remark("engine = \"driving\"\ncurrent = \"0.2 A\"\n") == Anomaly::Kind::charger_idle);
}

TEST_CASE("a place where nothing arrives is told as a break, not as milliohms") {
    const System system =
        with("simplest", "[[reading]]\nacross = [\"fridge\"]\nwith = [\"fridge\"]\nvoltage = \"0.2 V\"\n");
    const Diagnosis diagnosis = diagnose(system, make_plan(system));
    REQUIRE(diagnosis.anomalies.size() == 1);
    CHECK(diagnosis.anomalies[0].kind == Anomaly::Kind::nothing_arrives);
    CHECK(diagnosis.anomalies[0].places == std::vector<std::string>{"fridge"});
    CHECK(diagnosis.verdict == Verdict::told_by_one);
}

TEST_CASE("a corroded plug: first a side, then the reading that is asked for, then the plug alone") {
    const std::string name = "cool-box-at-night";
    const System before = example(name);
    const Diagnosis side = diagnose(before, make_plan(before));
    CHECK(side.verdict == Verdict::several);
    REQUIRE(side.next);
    CHECK(std::none_of(side.candidates.begin(), side.candidates.end(),
                       [](const FaultCandidate& one) { return one.identified; }));
    // What is lost over it by hand: (0.92 V − 0.13 V)/4.1 A = 193 mΩ.
    const System after = with(name,
                              "[[reading]]\nacross = [\"sample box two-pole plug 50 A +\"]\nwith = [\"sample box\"]\n"
                              "voltage = \"0.79 V\"\n");
    const Diagnosis plug = diagnose(after, make_plan(after));
    CHECK(plug.verdict == Verdict::found);
    REQUIRE_FALSE(plug.candidates.empty());
    const FaultCandidate& first = plug.candidates.front();
    CHECK(first.element == "sample box two-pole plug 50 A +");
    CHECK(first.identified);
    CHECK(in_milliohms(*first.extra) == doctest::Approx(193.0).epsilon(0.02));
    CHECK(in_watts(*first.heat) == doctest::Approx(4.0 * 4.0 * 0.193).epsilon(0.03));
    CHECK(show(first).find("at 4 A") != std::string::npos);
}

TEST_CASE("readings that contradict each other are said to") {
    // The two ends of the run say 1.2 V, the two sides together 0.24 V.
    const System system = with("simplest",
                               "[[reading]]\nacross = [\"battery\"]\nwith = [\"fridge\"]\nvoltage = \"12.50 V\"\n"
                               "[[reading]]\nacross = [\"fridge\"]\nwith = [\"fridge\"]\nvoltage = \"11.30 V\"\n"
                               "[[reading]]\nthrough = \"fridge\"\nwith = [\"fridge\"]\ncurrent = \"3.7 A\"\n"
                               "[[reading]]\nacross = [\"battery +\", \"fridge +\"]\nwith = [\"fridge\"]\nvoltage = "
                               "\"125 mV\"\n"
                               "[[reading]]\nacross = [\"fridge -\", \"battery -\"]\nwith = [\"fridge\"]\nvoltage = "
                               "\"100 mV\"\n");
    const Diagnosis diagnosis = diagnose(system, make_plan(system));
    CHECK((diagnosis.verdict == Verdict::contradiction || diagnosis.verdict == Verdict::several));
    REQUIRE_FALSE(diagnosis.candidates.empty());
    CHECK(diagnosis.candidates.front().kind == FaultKind::gross_error);
    CHECK(std::none_of(diagnosis.candidates.begin(), diagnosis.candidates.end(),
                       [](const FaultCandidate& one) { return one.identified && one.kind != FaultKind::gross_error; }));
}

TEST_CASE("a meter that is given as worse makes wider tolerances") {
    const auto tolerance = [](const std::string& more) {
        const TestPlan plan = plan_of(with("simplest", more));
        return std::get<Voltage>(*reading(plan, Proves::plus_side, "feed")->tolerance);
    };
    CHECK(tolerance("") < tolerance("[meter]\nmillivolts = \"8 % + 5 mV\"\n"));
}

}  // namespace voltwright

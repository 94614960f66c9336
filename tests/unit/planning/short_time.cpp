// What runs for a minute: a winch, a compressor. Cable and fuse are chosen for so short a time, and the day counts it as such.

#include "voltwright/sizing/short_time.hpp"
#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/circuit/fuse_time.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/units/literals.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>

using namespace voltwright;
using namespace voltwright::literals;

namespace {

const std::string vehicle =
    "[trip]\ndays = 2\nlow = \"12 degC\"\nhigh = \"28 degC\"\ndrives = \"09:00-11:00\"\n[battery]\nchemistry = "
    "\"agm\"\n"
    "capacity = \"200 Ah\"\n[charger]\noutput = \"30 A\"\n[[run]]\nto = \"charger\"\nlength = \"5 m\"\n[[run]]\nto = "
    "\"battery\"\nlength = \"1 m\"\n";

std::string winch(const std::string& times, const std::string& run = {}, const std::string& from = "battery") {
    return vehicle + "[[load]]\nname = \"winch\"\ndraw = \"350 A\"\nwhere = \"canopy\"\n" + times +
           "[[run]]\nfrom = \"" + from + "\"\nto = \"winch\"\nlength = \"2 m\"\n" + run;
}

const std::string one_minute_in_ten = "runs = \"60 s\"\nevery = \"10 min\"\nhours = \"10:00-10:30\"\n";

const RunPlan& winch_run(const Plan& plan) {
    return *std::find_if(plan.runs.begin(), plan.runs.end(),
                         [](const RunPlan& run) { return *run.task.run.name == "winch"; });
}

const Finding* found(const Plan& plan, FindingCode code) {
    const auto one = std::find_if(plan.findings.begin(), plan.findings.end(),
                                  [code](const Finding& finding) { return finding.code == code; });
    return one == plan.findings.end() ? nullptr : &*one;
}

bool stops(const Plan& plan) {
    return std::any_of(plan.findings.begin(), plan.findings.end(), [](const Finding& one) {
        return one.stops() && show(one.about).find("winch") != std::string::npos;
    });
}

HeatedConductor of_105(Gauge size) {
    const ConductorRow row = conductor_of(built_in_tables(), size).value();
    return heated_conductor(row.area, 105_degC, 30_degC,
                            ampacity(built_in_tables(), "us-33-cfr-183", row, 105_degC, 30_degC, 1, nominal_voltage));
}

}  // namespace

// 33 CFR 183.425 table 5 allows 445 A for long on 4/0 AWG of 105 degC, 285 A on 1/0 and 210 A on 2 AWG (read). IS 9857 puts
// the lasting current of one minute in ten at 350/sqrt(10) = 111 A (read).
TEST_CASE("a winch of 350 A on two metres is planned for a minute in ten: cable, fuse and drop") {
    for (const char* from : {"battery", "starter"}) {
        CAPTURE(from);
        const Plan plan = make_plan(testing::system_of_text(winch(one_minute_in_ten, {}, from)));
        const RunPlan& run = winch_run(plan);
        REQUIRE(run.to_lay());
        CHECK(!stops(plan));
        const Candidate& taken = *run.to_lay();
        CHECK(taken.fits());
        CHECK(run.choice.design.current == near(amperes(110.7), amperes(0.1)));
        CHECK(peak_current(run.choice.design) == near(amperes(350), amperes(1e-9)));
        // No more than its ampacity protects it, however short the winch pulls.
        REQUIRE(!taken.fuses.empty());
        CHECK(taken.fuses.front().rating <= taken.ampacity->current);
        CHECK(taken.ampacity->current < amperes(350) / 0.8);  // what a fuse for 350 A all the time would ask for
        // At full current, and at no more than 12 V.
        REQUIRE(taken.drop);
        CHECK(taken.drop->current == near(amperes(350), amperes(1e-6)));
        CHECK(taken.drop->drop <= volts(1.2));
        REQUIRE(taken.temperature);
        CHECK(taken.temperature->temperature <= 105_degC);
        // The fuse lets a minute of it pass: never sooner by its family's least times.
        CHECK(rides_through(built_in_tables(), taken.fuses.front().family, taken.fuses.front().rating, amperes(350),
                            60_s));
    }
}

TEST_CASE("the same winch all the time wants the thickest cable and a larger fuse") {
    const Plan plan = make_plan(testing::system_of_text(winch("hours = \"10:00-10:30\"\n")));
    const Plan at_times = make_plan(testing::system_of_text(winch(one_minute_in_ten)));
    REQUIRE(winch_run(plan).to_lay());
    REQUIRE(winch_run(at_times).to_lay());
    CHECK(winch_run(plan).to_lay()->size == awg(-3));
    CHECK(winch_run(plan).to_lay()->area > winch_run(at_times).to_lay()->area);
    CHECK(winch_run(plan).to_lay()->fuses.front().rating > winch_run(at_times).to_lay()->fuses.front().rating);
}

TEST_CASE("what runs the whole of its cycle is chosen as what runs all the time") {
    const auto of = [](const std::string& times) {
        return make_plan(testing::system_of_text(vehicle +
                                                 "[[load]]\nname = \"winch\"\ndraw = \"120 A\"\nwhere = \"canopy\"\n" +
                                                 times + "[[run]]\nto = \"winch\"\nlength = \"2 m\"\n"));
    };
    const Plan cycle = of("runs = \"10 min\"\nevery = \"10 min\"\nhours = \"10:00-10:30\"\n");
    const Plan always = of("hours = \"10:00-10:30\"\n");
    const RunPlan &a = winch_run(cycle), &b = winch_run(always);
    REQUIRE(a.to_lay());
    REQUIRE(b.to_lay());
    CHECK(a.to_lay()->size == b.to_lay()->size);
    CHECK(a.choice.design.current == near(b.choice.design.current, amperes(1e-6)));
    CHECK(a.to_lay()->fuses.front().rating == b.to_lay()->fuses.front().rating);
}

// Time constants of copper alone, worked out from 33 CFR 183.425 table 5: 84 s on 10 AWG, 120 s on 8 AWG.
TEST_CASE("a load of 60 s every 10 min is a lasting one on 10 AWG and thinner, and is not on 8 AWG and thicker") {
    const ShortTimeCurrent flows{amperes(100), 60_s, 600_s, Current{}};
    for (const Gauge size : {awg(16), awg(14), awg(12), awg(10)}) {
        CAPTURE(show(size));
        CHECK(factor_in(of_105(size), flows) == near(ratio(1), ratio(1e-12)));
    }
    Ratio last = ratio(1);
    for (const Gauge size : {awg(8), awg(6), awg(4), awg(2), awg(0), awg(-1), awg(-3)}) {
        CAPTURE(show(size));
        CHECK(factor_in(of_105(size), flows) > ratio(1.4));
        CHECK(factor_in(of_105(size), flows) >= last);
        CHECK(factor_in(of_105(size), flows) <= ratio(std::sqrt(10.0)));
        last = factor_in(of_105(size), flows);
    }
}

TEST_CASE("a fuse that a minute of the winch may blow is told, with one that lets it pass") {
    const Plan plan =
        make_plan(testing::system_of_text(winch(one_minute_in_ten, "size = \"2/0 AWG\"\nfuse = \"175 A SF51\"\n")));
    const Finding* blows = found(plan, FindingCode::blows_in_use);
    REQUIRE(blows);
    CHECK(std::get<Current>(*blows->found) == near(amperes(350), amperes(1e-9)));
    REQUIRE(!blows->remedy.changes.empty());
    const Plan cured = make_plan(testing::system_of_text(
        winch(one_minute_in_ten, "size = \"2/0 AWG\"\nfuse = \"" + blows->remedy.changes.front().value + "\"\n")));
    CHECK(!found(cured, FindingCode::blows_in_use));
    // No new stop: that the given family cannot break a short there was one before.
    for (const Finding& one : cured.findings)
        if (one.stops() && !found(plan, one.code)) FAIL_CHECK(show(one));
}

TEST_CASE("a cable too thin for a minute in ten is told what it may carry for so long") {
    const Plan plan =
        make_plan(testing::system_of_text(winch(one_minute_in_ten, "size = \"8 AWG\"\nfuse = \"80 A SF30\"\n")));
    const Finding* one = found(plan, FindingCode::ampacity);
    REQUIRE(one);
    CHECK(std::get<Current>(*one->found) == near(amperes(350), amperes(1e-9)));
    // 80 A for long (33 CFR 183.425, read), 1.59 times that for a minute from cold (worked out).
    CHECK(std::get<Current>(*one->allowed) > amperes(80));
    CHECK(std::get<Current>(*one->allowed) < amperes(80 * 1.65));
    CHECK(show(*one).find("for 1 min every 10 min") != std::string::npos);
}

TEST_CASE("a day counts what runs for a short time by its share of the hours") {
    // Half an hour at a tenth of 350 A: 17.5 Ah.
    const Plan with = make_plan(testing::system_of_text(winch(one_minute_in_ten)));
    const Plan without = make_plan(testing::system_of_text(vehicle));
    REQUIRE(!with.energy.trip.days.empty());
    CHECK(in_ampere_hours(with.energy.trip.days.front().used - without.energy.trip.days.front().used) ==
          near(17.5, 0.1));
}

TEST_CASE("behind a block the winch is a short time on top of what is always on") {
    const Plan plan = make_plan(testing::system_of_text(
        vehicle +
        "[[run]]\nto = \"block\"\nlength = \"1 m\"\n[[load]]\nname = \"winch\"\ndraw = \"200 A\"\nwhere = "
        "\"canopy\"\n" +
        one_minute_in_ten +
        "[[run]]\nfrom = \"block\"\nto = \"winch\"\nlength = \"1 m\"\n[[load]]\nname = "
        "\"heater\"\ndraw = \"20 A\"\n[[run]]\nfrom = \"block\"\nto = \"heater\"\nlength = \"1 m\"\n"));
    const auto trunk = std::find_if(plan.runs.begin(), plan.runs.end(),
                                    [](const RunPlan& run) { return run.task.role == RunRole::trunk; });
    REQUIRE(trunk != plan.runs.end());
    const DesignCurrent& design = trunk->choice.design;
    REQUIRE(design.short_time);
    CHECK(design.short_time->base == near(amperes(20), amperes(1e-9)));
    CHECK(design.short_time->current == near(amperes(220), amperes(1e-9)));
    // Heat adds up: 20 A all the time, 220 A for a tenth of it.
    CHECK(design.current == near(amperes(std::sqrt(0.9 * 400 + 0.1 * 48400)), amperes(1e-6)));
    REQUIRE(trunk->to_lay());
}

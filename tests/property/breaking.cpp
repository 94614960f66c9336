// Over 300 vehicles drawn at random, no fuse that was chosen stands below the short that is expected just behind it, unless
// one in front of it breaks that, or the plan says so in a single finding.

#include "dice.hpp"
#include "journeys.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

using namespace voltwright;

namespace {

using testing::Dice;

std::string quoted(const std::string& text) { return "\"" + text + "\""; }

/// A vehicle with up to five loads, some on a fuse block, banks of every size, and now and then an inverter.
std::string vehicle(unsigned seed) {
    Dice dice(seed);
    const auto one_of = [&](const std::vector<std::string>& all) { return dice.one_of(all); };
    const auto chance = [&](int percents) { return dice.whole(1, 100) <= percents; };
    std::string text = "[trip]\ndays = 2\nlow = \"10 degC\"\nhigh = \"25 degC\"\ndrives = \"08:30-11:00\"\n[starter]\n";
    if (chance(50)) text += "cold_cranking = " + quoted(one_of({"480 A", "650 A", "900 A"})) + "\n";
    text += "[battery]\nchemistry = " + quoted(one_of({"agm", "flooded", "gel", "lfp"})) +
            "\ncapacity = " + quoted(one_of({"60 Ah", "100 Ah", "150 Ah", "200 Ah", "400 Ah"})) + "\n";
    text += "[charger]\noutput = " + quoted(one_of({"10 A", "20 A", "25 A", "30 A", "50 A"})) + "\n";
    const auto run = [&](const std::string& to, const std::string& from) {
        text += "[[run]]\nto = " + quoted(to) + "\nlength = " + quoted(one_of({"0.6 m", "1 m", "2 m", "4 m"})) + "\n";
        if (!from.empty()) text += "from = " + quoted(from) + "\n";
    };
    run("charger", "");
    run("battery", "");
    const int loads = dice.whole(1, 5);
    const bool block = chance(50);
    if (block) run("block", "");
    for (int i = 0; i < loads; ++i) run("load " + std::to_string(i), block && (i == 0 || chance(60)) ? "block" : "");
    for (int i = 0; i < loads; ++i)
        text += "[[load]]\nname = \"load " + std::to_string(i) +
                "\"\ndraw = " + quoted(one_of({"2 A", "60 W", "8 A", "120 W", "15 A", "22 A"})) +
                "\nhours = \"18:00-19:00\"\n";
    if (chance(30)) {
        text += "[inverter]\noutput = " + quoted(one_of({"300 W", "1000 W", "2000 W"})) + "\n";
        run("inverter", "");
    }
    return text;
}

bool names(const Finding& finding, const FuseFit& fuse) {
    const auto same = [&](const NamedFuse& one) { return one.rating == fuse.rating && one.family == fuse.family; };
    for (const Argument& argument : finding.arguments) {
        const auto* one = std::get_if<NamedFuse>(&argument.value);
        const auto* several = std::get_if<std::vector<NamedFuse>>(&argument.value);
        if ((one && same(*one)) || (several && std::any_of(several->begin(), several->end(), same))) return true;
    }
    return false;
}

/// A fuse in front of the run that interrupts so much.
bool covered(const Plan& plan, const RunPlan& run, Current asked) {
    const Place* at = &run.task.from;
    for (bool further = true; further;) {
        further = false;
        for (const RunPlan& front : plan.runs) {
            if (!(front.task.to == *at) || !front.taken()) continue;
            for (const FuseFit& fuse : front.taken()->fuses)
                if (fuse.fault.breaking_capacity.value >= asked) return true;
            at = &front.task.from;
            further = true;
            break;
        }
    }
    return false;
}

}  // namespace

TEST_CASE(
    "no chosen fuse is asked to break more than it is made for, or one in front breaks it, or the plan says so once") {
    int said = 0, stronger = 0;
    for (unsigned seed = 1; seed <= 300; ++seed) {
        const std::string text = vehicle(seed);
        CAPTURE(text);
        const Plan plan = make_plan(testing::system_of_text(text));
        const auto is_breaking = [](const Finding& one) { return one.code == FindingCode::breaking_capacity; };
        const auto finding = std::find_if(plan.findings.begin(), plan.findings.end(), is_breaking);
        const auto spoken = std::count_if(plan.findings.begin(), plan.findings.end(), is_breaking);
        CHECK(spoken <= 1);
        said += static_cast<int>(spoken);
        for (const RunPlan& run : plan.runs) {
            if (!run.to_lay()) continue;
            for (const FuseFit& fuse : run.to_lay()->fuses) {
                stronger += fuse.family == "post" || fuse.family == "class T" ? 1 : 0;
                if (fuse.fault.expected.current <= fuse.fault.breaking_capacity.value) continue;
                CAPTURE(*run.task.run.name);
                CHECK((covered(plan, run, fuse.fault.expected.current) ||
                       (finding != plan.findings.end() && names(*finding, fuse))));
                // Only what is too small for any stronger family stays as it is.
                CHECK(fuse.family == "blade");
            }
        }
    }
    CHECK(said <= 150);
    // A rule that never takes a stronger family would not be tested here.
    CHECK(stronger >= 50);
}

// Laws of main fuses and bank links, over several hundred vehicles drawn at random.

#include "dice.hpp"
#include "journeys.hpp"
#include "testing.hpp"

#include "voltwright/planning/plan.hpp"
#include "voltwright/shopping/parts.hpp"
#include "voltwright/units/literals.hpp"

#include <algorithm>
#include <string>
#include <vector>

using namespace voltwright;
using namespace voltwright::literals;
using testing::Dice;

namespace {

constexpr int vehicles = 300;

/// One to five small loads, some on a block of the owner's, some with an inverter, on any battery.
std::string vehicle(int number) {
    Dice dice(static_cast<unsigned>(number) + 40507);
    const auto length = [&] { return "length = \"" + std::to_string(dice.whole(1, 6)) + " m\"\n"; };
    std::string text =
        "[trip]\nlow = \"10 degC\"\nhigh = \"31 degC\"\ndrives = \"08:00-10:00\"\n[battery]\nchemistry = \"" +
        dice.one_of(std::vector<std::string>{"agm", "flooded", "gel", "lfp"}) + "\"\ncapacity = \"" +
        std::to_string(dice.whole(50, 300)) + " Ah\"\ncount = " + std::to_string(dice.whole(1, 3)) +
        "\n[charger]\noutput = \"" + std::to_string(dice.whole(10, 50)) + " A\"\n";
    if (dice.whole(0, 2) == 0) text += "[rules]\nsizes = \"metric\"\n";
    text += "[[run]]\nto = \"charger\"\n" + length() + "[[run]]\nto = \"battery\"\nlength = \"1 m\"\n";
    const bool block = dice.whole(0, 2) == 0;
    if (block)
        text += "[[run]]\nto = \"block\"\n" + length() +
                "[[run]]\nfrom = \"block\"\nto = \"step light\"\nlength = \"2 m\"\n[[load]]\nname = \"step light\"\n"
                "draw = \"6 W\"\nduty = \"5 %\"\n";
    const std::vector<std::string> ways = {
        "", "", "", "return = \"body\"\n", "insulation = \"75 degC\"\n", "size = \"12 AWG\"\n"};
    if (dice.whole(0, 3) > 0)
        text += "[[fridge]]\ndraw = \"" + std::to_string(dice.whole(30, 70)) +
                " W\"\nrated = [{ around = \"25 degC\", a_day = \"20 Ah\" }]\n[[run]]\nto = \"fridge\"\n" + length() +
                dice.one_of(ways);
    for (int i = dice.whole(0, 5); i > 0; --i) {
        const std::string name = "load " + std::to_string(i);
        text += "[[load]]\nname = \"" + name + "\"\ndraw = \"" + std::to_string(dice.whole(5, 240)) +
                " W\"\nduty = \"5 %\"\n[[run]]\nto = \"" + name + "\"\n" + length() + dice.one_of(ways);
        if (block && dice.whole(0, 1) == 0) text += "from = \"block\"\n";
    }
    if (dice.whole(0, 3) == 0)
        text += "[inverter]\noutput = \"" + std::to_string(100 * dice.whole(3, 20)) +
                " W\"\n[[run]]\nto = \"inverter\"\nlength = \"1 m\"\n";
    return text;
}

template <class Check>
void over_vehicles(Check check) {
    for (int number = 0; number < vehicles; ++number) {
        const std::string text = vehicle(number);
        CAPTURE(text);
        const System system = testing::system_of_text(text);
        check(system, make_plan(system));
    }
}

const FuseFit* first_fuse(const RunPlan& run) {
    return run.to_lay() && !run.to_lay()->fuses.empty() ? &run.to_lay()->fuses.front() : nullptr;
}

}  // namespace

TEST_CASE("no chosen fuse stands alone below the short that is expected where it sits, and few plans speak of it") {
    int spoken_of = 0, mains = 0;
    over_vehicles([&](const System&, const Plan& plan) {
        for (const RunPlan& run : plan.runs) {
            CAPTURE(*run.task.run.name);
            mains += run.task.main_fuse ? 1 : 0;
            const FuseFit* fuse = first_fuse(run);
            if (!fuse || fuse->given) continue;
            const Current own = fuse->fault.breaking_capacity.value;
            // Behind a fuse that breaks it, branches need half of what is asked of the main: E-11, table V-A, a reprint.
            CHECK(fuse->fault.expected.current <= std::max(own, std::min<Current>(fuse->fault.in_front, 2.0 * own)));
        }
        spoken_of += static_cast<int>(std::count_if(plan.findings.begin(), plan.findings.end(), [](const Finding& one) {
            return one.code == FindingCode::breaking_capacity;
        }));
    });
    CHECK(mains > vehicles / 4);
    CHECK(spoken_of <= vehicles / 2);
}

TEST_CASE("a main fuse is larger than every fuse behind it, its lead carries it, and it carries all that is on") {
    over_vehicles([&](const System& system, const Plan& plan) {
        for (std::size_t i = 0; i < plan.runs.size(); ++i) {
            const RunPlan& run = plan.runs[i];
            const FuseFit* main = first_fuse(run);
            if (!run.task.main_fuse || !main) continue;
            CHECK(main->form != FuseForm::blade);
            CHECK(main->at == run.task.from);
            CHECK(run.taken()->ampacity->current >= main->rating);
            CHECK(main->rating >= run.choice.design.current / 0.8);
            if (run.figures) {
                Current together{};
                for (const std::size_t next : system.tree.after[i])
                    if (plan.runs[next].figures && plan.runs[next].figures->apart == run.figures->apart &&
                        plan.runs[next].figures->at == run.figures->at)
                        together += plan.runs[next].figures->current;
                CHECK(in_amperes(run.figures->current) == doctest::Approx(in_amperes(together)).epsilon(1e-6));
            }
            for (const std::size_t next : system.tree.after[i])
                if (const FuseFit* fuse = first_fuse(plan.runs[next])) CHECK(fuse->rating < main->rating);
        }
    });
}

TEST_CASE("every bank has its links, of which no fuse stands below what the other batteries drive, and buys them") {
    int banks = 0;
    over_vehicles([&](const System& system, const Plan& plan) {
        CHECK(plan.bank.has_value() == (system.house.count > 1));
        if (!plan.bank) return;
        ++banks;
        const Candidate* link = plan.bank->to_lay();
        REQUIRE(link);
        const FuseFit& fuse = link->fuses.front();
        CHECK(fuse.fault.expected.current <= fuse.fault.breaking_capacity.value);
        CHECK(fuse.rating <= link->ampacity->current);
        CHECK(fuse.rating >= plan.bank->share);
        const PartsList list = parts_list(system, plan);
        const auto fuses = std::find_if(list.parts.begin(), list.parts.end(), [&](const Part& part) {
            return part.kind == PartKind::fuse && part.rating == fuse.rating && part.family == fuse.family;
        });
        REQUIRE(fuses != list.parts.end());
        CHECK(fuses->count - fuses->spare >= system.house.count);
    });
    CHECK(banks > vehicles / 3);
}

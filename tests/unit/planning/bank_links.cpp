#include "dice.hpp"
#include "journeys.hpp"
#include "testing.hpp"

#include "voltwright/planning/plan.hpp"
#include "voltwright/shopping/parts.hpp"
#include "voltwright/units/literals.hpp"

#include <algorithm>
#include <string>
#include <string_view>

/// What joins equal batteries in parallel: held against Kirchhoff's laws, solved here by hand.

namespace voltwright {

using namespace literals;

namespace {

std::string vehicle(int count, const std::string& inverter) {
    return "[trip]\nlow = \"14 degC\"\nhigh = \"31 degC\"\ndrives = \"08:30-10:00\"\n[battery]\nchemistry = \"agm\"\n"
           "capacity = \"120 Ah\"\ncount = " +
           std::to_string(count) +
           "\n[charger]\noutput = \"40 A\"\n[[run]]\nto = \"charger\"\nlength = \"4 m\"\n"
           "[[run]]\nto = \"battery\"\nlength = \"1 m\"\n" +
           (inverter.empty()
                ? ""
                : "[inverter]\noutput = \"" + inverter + "\"\n[[run]]\nto = \"inverter\"\nlength = \"1 m\"\n");
}

Plan plan_of(int count, const std::string& inverter) {
    return make_plan(testing::system_of_text(vehicle(count, inverter)));
}

const RunPlan& run(const Plan& plan, std::string_view name) {
    const auto found = std::find_if(plan.runs.begin(), plan.runs.end(),
                                    [&](const RunPlan& one) { return *one.task.run.name == name; });
    REQUIRE(found != plan.runs.end());
    return *found;
}

}  // namespace

TEST_CASE("a single battery has no links") { CHECK_FALSE(plan_of(1, "1500 W").bank); }

TEST_CASE(
    "two batteries with an inverter of 1500 W have a link, and a fuse on each that breaks what the other drives") {
    const Plan plan = plan_of(2, "1500 W");
    REQUIRE(plan.bank);
    const BankLinks& bank = *plan.bank;
    REQUIRE(bank.to_lay());
    CHECK(plan.holds());
    CHECK_FALSE(bank.bus_bars());
    CHECK(bank.pairs() == 1);
    // What goes out is the inverter's alone, and a link carries about half of it.
    CHECK(bank.most == run(plan, "inverter").choice.design.current);
    CHECK(bank.share > 0.5 * bank.most);
    CHECK(bank.share < 0.75 * bank.most);
    const FuseFit& fuse = bank.to_lay()->fuses.front();
    CHECK(fuse.rating > bank.share);
    CHECK(fuse.rating <= bank.to_lay()->ampacity->current);
    CHECK(fuse.fault.expected.current <= fuse.fault.breaking_capacity.value);
    // One battery drives less than the two of them: by Ohm's law about half.
    CHECK(fuse.fault.expected.current < run(plan, "inverter").to_lay()->fuses.front().fault.expected.current);
}

TEST_CASE("where charging is what the bank sees most of, the links are for that") {
    const Plan plan = plan_of(2, "");
    REQUIRE(plan.bank);
    CHECK(plan.bank->most == 40_A);
}

TEST_CASE("three batteries and more have a lead each to two bus bars, for a smaller share each") {
    const Plan two = plan_of(2, "1500 W"), three = plan_of(3, "1500 W");
    REQUIRE(two.bank);
    REQUIRE(three.bank);
    CHECK(three.bank->bus_bars());
    CHECK(three.bank->pairs() == 3);
    CHECK(three.bank->share < two.bank->share);
    const System system = testing::system_of_text(vehicle(3, "1500 W"));
    const PartsList list = parts_list(system, three);
    const auto bars =
        std::find_if(list.parts.begin(), list.parts.end(), [](const Part& part) { return part.what == "bus bar"; });
    REQUIRE(bars != list.parts.end());
    CHECK(bars->count == 2);
    CHECK(*bars->at_least == three.bank->most);
}

TEST_CASE(
    "a battery's share covers what Kirchhoff gives two that differ by a fifth each way, crosswise with their link") {
    testing::Dice dice(4711);
    for (const char* inverter : {"300 W", "1000 W", "1500 W", "2000 W", "3000 W"}) {
        const Plan plan = plan_of(2, inverter);
        REQUIRE(plan.bank);
        REQUIRE(plan.bank->to_lay());
        const double usual = 2.0 * in_ohms(testing::system_of_text(vehicle(2, inverter)).house.internal.expected);
        // Crosswise, red or black of the link lies in the way of each battery: once.
        const double link = in_ohms(plan.bank->to_lay()->cold_loop) / 2.0;
        for (int i = 0; i < 50; ++i) {
            const double one = usual * dice.even(0.8, 1.2) + link, other = usual * dice.even(0.8, 1.2) + link;
            const double first = in_amperes(plan.bank->most) * other / (one + other);
            const double most = std::max(first, in_amperes(plan.bank->most) - first);
            CHECK(most <= in_amperes(plan.bank->share) * (1.0 + 1e-9));
        }
    }
}

TEST_CASE("what the plan says of the links is what the list buys") {
    const System system = testing::system_of_text(vehicle(2, "1500 W"));
    const Plan plan = make_plan(system);
    const PartsList list = parts_list(system, plan);
    const FuseFit& fuse = plan.bank->to_lay()->fuses.front();
    const auto of_bank = [](const Part& part) {
        return std::find(part.runs.begin(), part.runs.end(), "battery bank") != part.runs.end();
    };
    int fuses = 0, cables = 0, lugs = 0;
    for (const Part& part : list.parts) {
        if (!of_bank(part)) continue;
        if (part.kind == PartKind::fuse && part.rating == fuse.rating && part.family == fuse.family)
            fuses += part.count - part.spare;
        if (part.kind == PartKind::cable && part.size == plan.bank->to_lay()->size) ++cables;
        if (part.kind == PartKind::lug && part.size == plan.bank->to_lay()->size) lugs += part.count;
    }
    CHECK(fuses >= 2);
    CHECK(cables == 2);
    CHECK(lugs >= 4);
}

}  // namespace voltwright

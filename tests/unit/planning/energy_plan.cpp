// What the energy side of a plan finds, each on a vehicle that has just that trouble.

#include "findings.hpp"
#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/messages/findings.hpp"

#include <algorithm>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

/// The simplest vehicle, with what a test changes in each section.
struct Sections {
    std::string trip = "days = 3\nlow = \"14 degC\"\nhigh = \"31 degC\"\ndrives = \"08:30-10:00\"\n";
    std::string battery = "chemistry = \"agm\"\ncapacity = \"120 Ah\"\n";
    std::string charger = "output = \"25 A\"\n";
    std::string fridge = "draw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n";
    std::string more = {};

    [[nodiscard]] Plan plan() const {
        return make_plan(system_of_text(
            "[trip]\n" + trip + "[battery]\n" + battery + "[charger]\n" + charger +
            "[[run]]\nto = \"charger\"\nlength = \"6 m\"\n" + "[[run]]\nto = \"battery\"\nlength = \"1 m\"\n" +
            "[[run]]\nto = \"fridge\"\nlength = \"3 m\"\n" + "[[fridge]]\n" + fridge + more));
    }
};

const Finding* finding(const Plan& plan, std::string_view code) {
    const auto found = std::find_if(plan.findings.begin(), plan.findings.end(),
                                    [&](const Finding& one) { return show(one.code) == code; });
    return found == plan.findings.end() ? nullptr : &*found;
}

void finds(const Sections& sections, std::string_view code, Level level) {
    CAPTURE(std::string(code));
    const Plan plan = sections.plan();
    const Finding* found = finding(plan, code);
    REQUIRE(found);
    CHECK(found->level == level);
    CHECK(!remedy_in_words(*found).empty());
    CHECK(plan.holds() == (level != Level::stop && plan.energy.holds()));
}

}  // namespace

TEST_CASE("the simplest trip holds, and nothing stops or warns on the energy side") {
    const Plan plan = Sections{}.plan();
    CHECK(plan.energy.holds());
    for (const Finding& found : plan.energy.findings) CHECK(found.level == Level::note);
    CHECK(plan.energy.autonomy.lasts > hours(40));
    CHECK(plan.energy.autonomy.ended_by == EndedBy::depth_limit);
    REQUIRE(plan.energy.driving);
    // The most that 25 A can leave in an hour, and something.
    CHECK(plan.energy.driving->first_hour > ampere_hours(15));
    CHECK(plan.energy.driving->first_hour <= ampere_hours(25));
}

TEST_CASE("each trouble of the energy side is found, with its level") {
    Sections sections;
    sections.trip = "days = 6\nlow = \"22 degC\"\nhigh = \"38 degC\"\n";
    finds(sections, "depth-limit", Level::stop);
    finds(sections, "cut-out", Level::stop);

    sections = {};
    sections.charger += "absorption = \"15.2 V\"\n";
    finds(sections, "charge-voltage-high", Level::stop);
    sections = {};
    sections.charger += "absorption = \"13.7 V\"\nfloat = \"13.5 V\"\n";
    finds(sections, "charge-voltage-low", Level::warn);

    sections = {};
    sections.charger = "output = \"60 A\"\n";
    finds(sections, "charged-too-hard", Level::warn);
    sections.battery = "chemistry = \"lfp\"\ncapacity = \"100 Ah\"\n";
    finds(sections, "charged-too-hard", Level::stop);

    sections = {};
    sections.battery = "chemistry = \"lfp\"\ncapacity = \"100 Ah\"\nwhere = \"shade\"\n";
    sections.trip = "days = 2\nlow = \"-15 degC\"\nhigh = \"-4 degC\"\ndrives = \"08:30-10:00\"\n";
    finds(sections, "too-cold-to-charge", Level::warn);

    sections = {};
    sections.charger += "where = \"55 degC\"\n";
    finds(sections, "charger-hot", Level::warn);

    sections = {};
    sections.fridge = "draw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"60 Ah\" }]\n";
    sections.trip = "days = 1\nlow = \"24 degC\"\nhigh = \"45 degC\"\ndrives = \"06:00-20:00\"\n";
    finds(sections, "fridge-overwhelmed", Level::stop);

    sections = {};
    sections.fridge = "draw = \"45 W\"\nlitres = \"40 L\"\n";
    finds(sections, "fridge-guessed", Level::warn);
    sections.fridge =
        "draw = \"45 W\"\nrated = [{ around = \"20 degC\", a_day = \"30 Ah\" },"
        " { around = \"32 degC\", a_day = \"20 Ah\" }]\n";
    finds(sections, "fridge-contradicts", Level::warn);

    sections = {};
    sections.trip = "days = 4\nlow = \"14 degC\"\nhigh = \"31 degC\"\ndrives = \"08:30-09:00\"\n";
    sections.battery += "start_soc = \"75 %\"\n";
    finds(sections, "never-full", Level::warn);

    sections = {};
    sections.charger = "output = \"3 A\"\n";
    sections.more = "[[load]]\nname = \"pump\"\ndraw = \"90 W\"\nhours = \"08:30-10:00\"\n";
    finds(sections, "driving-loses", Level::warn);

    sections = {};
    sections.more = "[[load]]\nname = \"winch\"\ndraw = \"160 A\"\nhours = \"12:00-12:01\"\n";
    CHECK(finding(sections.plan(), "discharged-too-hard"));
}

TEST_CASE("what hangs on the inverter and can be on at one time is held against its output") {
    const auto inverted = [](const std::string& name, const std::string& draw, const std::string& hours) {
        return "[[load]]\nname = \"" + name + "\"\ndraw = \"" + draw + "\"\nthrough = \"inverter\"\nhours = " + hours +
               "\n";
    };
    const std::string inverter = "[inverter]\noutput = \"300 W\"\n";
    const auto overloaded = [](const std::string& more) -> std::optional<Finding> {
        Sections sections;
        sections.more = more;
        const Plan plan = sections.plan();
        const Finding* found = finding(plan, "inverter-overloaded");
        if (!found) return {};
        CHECK(found->level == Level::stop);
        CHECK(!remedy_in_words(*found).empty());
        CHECK(!plan.holds());
        CHECK(std::get<Power>(*found->allowed) == near(watts(300), watts(1e-9)));
        return *found;
    };
    const auto one = overloaded(inverter + inverted("kettle", "500 W", "\"17:00-17:05\""));
    REQUIRE(one);
    CHECK(std::get<Power>(*one->found) == near(watts(500), watts(1e-9)));
    CHECK(argument_of(*one, "loads") == "kettle");

    // 200 W and 150 W at 17:30; the 180 W are on at another time.
    const auto two = overloaded(inverter + inverted("blender", "180 W", "\"08:00-08:10\"") +
                                inverted("laptop", "200 W", "\"16:00-18:00\"") +
                                inverted("drill", "150 W", "[\"10:00-10:30\", \"17:30-19:00\"]"));
    REQUIRE(two);
    CHECK(std::get<Power>(*two->found) == near(watts(350), watts(1e-9)));
    CHECK(argument_of(*two, "loads") == "laptop, drill");

    // Over midnight.
    CHECK(overloaded(inverter + inverted("blanket", "200 W", "\"22:00-06:00\"") +
                     inverted("radio", "150 W", "\"05:00-07:00\"")));
    // One after the other, and just as much as it gives.
    CHECK(!overloaded(inverter + inverted("blender", "280 W", "\"08:00-09:00\"") +
                      inverted("drill", "290 W", "\"09:00-10:00\"")));
    CHECK(!overloaded(inverter + inverted("laptop", "200 W", "\"16:00-18:00\"") +
                      inverted("radio", "100 W", "\"16:00-18:00\"")));
    // What hangs on 12 V is none of its business.
    CHECK(!overloaded(inverter + "[[load]]\nname = \"heater\"\ndraw = \"400 W\"\nhours = \"17:00-17:05\"\n"));
}

// 2000 W out at 88 % are 2273 W in: at 12 V already 189 A, and an AGM battery of 120 Ah gives 120 A (the table's 1 C).
TEST_CASE("an inverter that may draw more than the battery gives is told") {
    Sections sections;
    sections.more = "[inverter]\noutput = \"2000 W\"\n";
    finds(sections, "inverter-above-battery", Level::warn);
    sections.more = "[inverter]\noutput = \"600 W\"\n";
    CHECK(!finding(sections.plan(), "inverter-above-battery"));
}

TEST_CASE("a charger whose input is too low never starts, one that is pulled down cycles, and neither charges") {
    Sections sections;
    sections.more = "[starter]\nrunning = \"13.0 V\"\nlowest_running = \"12.8 V\"\n";
    const Plan never = sections.plan();
    CHECK(finding(never, "charger-does-not-start"));
    CHECK(never.energy.trip.ledger.from_charger == Charge{});

    sections.more = "[rules]\nsizes = [\"10 AWG\"]\n";
    const Plan thin = sections.plan();
    CHECK(finding(thin, "charger-hunts"));
    CHECK(thin.energy.trip.ledger.from_charger == Charge{});
}

TEST_CASE("a thinner feed charges less where the charger is at its input limit") {
    Sections sections;
    sections.charger = "output = \"25 A\"\ninput_limit = \"27 A\"\n";
    sections.more = "[rules]\nsizes = [\"2 AWG\"]\n";
    const Charge thick = sections.plan().energy.trip.ledger.from_charger;
    const Current thick_output = sections.plan().energy.charger.output;
    sections.more = "[rules]\nsizes = [\"8 AWG\"]\n";
    CHECK(sections.plan().energy.charger.output < thick_output);
    CHECK(sections.plan().energy.trip.ledger.from_charger < thick);
}

TEST_CASE("the spare current of the alternator is held against what the charger draws") {
    Sections sections;
    sections.more = "[starter]\nspare_current = \"20 A\"\n";
    const Plan plan = sections.plan();
    const Finding* found = finding(plan, "spare-current");
    REQUIRE(found);
    CHECK(found->level == Level::warn);
}

TEST_CASE("the sun alone carries a fridge through days without a drive") {
    Sections sections;
    sections.trip = "days = 6\nlow = \"14 degC\"\nhigh = \"30 degC\"\nstart = 2026-12-20\nlatitude = \"-30 deg\"\n";
    const Plan without = sections.plan();
    CHECK(!without.energy.holds());
    sections.more = "[solar]\npanel = \"160 W\"\n";
    const Plan with = sections.plan();
    CHECK(with.energy.holds());
    CHECK(with.energy.trip.ledger.from_sun > ampere_hours(60));
    CHECK(with.energy.trip.ledger.from_charger == Charge{});
}

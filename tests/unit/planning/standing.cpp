// How long everything runs where a vehicle stands: which day, how worn the battery is, what an idling engine is worth, and
// plans without a charger.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/messages/assumptions.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/units/literals.hpp"

#include <algorithm>

using namespace voltwright;
using namespace voltwright::literals;
using namespace voltwright::testing;

namespace {

const Finding* found(const Findings& findings, FindingCode code) {
    const auto one =
        std::find_if(findings.begin(), findings.end(), [&](const Finding& finding) { return finding.code == code; });
    return one == findings.end() ? nullptr : &*one;
}

const Assumption* assumed(const Assumptions& all, AssumptionCode code) {
    const auto one = std::find_if(all.begin(), all.end(), [&](const Assumption& each) { return each.code == code; });
    return one == all.end() ? nullptr : &*one;
}

Duration lasts(const std::string& text) {
    const auto answer = autonomy_of(system_of_text(text), {});
    REQUIRE(answer);
    return answer->standard.lasts;
}

/// A heater in the frost, on lead; `more` stands behind it.
std::string in_the_frost(const std::string& more = {}, std::string_view place = "canopy") {
    return "[trip]\ndays = 5\nlow = \"-12 degC\"\nhigh = \"-4 degC\"\n[battery]\nchemistry = \"flooded\"\ncapacity = "
           "\"100 Ah\"\nwhere = \"" +
           std::string(place) +
           "\"\n[charger]\noutput = \"20 A\"\n[[run]]\nto = \"charger\"\nlength = \"5 m\"\n[[load]]\nname = "
           "\"heater\"\ndraw = \"30 W\"\nhours = \"00:00-24:00\"\n" +
           more;
}

/// A fridge; of [trip], [battery] and [starter] what is told.
std::string with_fridge(const std::string& trip, const std::string& battery = {}, const std::string& starter = {},
                        const std::string& charger = {}) {
    return "[trip]\ndays = 3\nlow = \"14 degC\"\nhigh = \"31 degC\"\n" + trip +
           "[battery]\nchemistry = \"agm\"\ncapacity = \"120 Ah\"\n" + battery + "[starter]\n" + starter +
           "[charger]\noutput = \"25 A\"\n" + charger +
           "[[run]]\nto = \"charger\"\nlength = \"6 m\"\n[[run]]\nto = \"battery\"\nlength = \"1 m\"\n"
           "[[run]]\nto = \"fridge\"\nlength = \"3 m\"\n"
           "[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n";
}

const std::string morning = "drives = \"08:30-10:00\"\n";

/// The same without a charger.
std::string without_charger(const std::string& trip, const std::string& more = {}) {
    return "[trip]\ndays = 3\nlow = \"14 degC\"\nhigh = \"31 degC\"\n" + trip +
           "[battery]\nchemistry = \"agm\"\ncapacity = \"120 Ah\"\n[[run]]\nto = \"fridge\"\nlength = \"3 m\"\n"
           "[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n" +
           more;
}

const std::string in_july = "start = 2026-07-01\nlatitude = \"37 deg\"\n";
const std::string panel =
    "[solar]\npanel = \"200 W\"\n[[run]]\nfrom = \"panel\"\nto = \"regulator\"\nlength = \"4 "
    "m\"\n[[run]]\nfrom = \"regulator\"\nto = \"battery\"\nlength = \"1 m\"\n";

}  // namespace

// Lead holds less in the cold (IEEE 485, cell size factors): one mild day among four cold ones makes no night warmer.
TEST_CASE("a mild day among cold ones lengthens nothing, and the answer names the cold day") {
    const std::string mild = "[[day]]\non = 5\nlow = \"5 degC\"\nhigh = \"14 degC\"\n";
    const auto alike = autonomy_of(system_of_text(in_the_frost()), {});
    const auto mixed = autonomy_of(system_of_text(in_the_frost(mild)), {});
    REQUIRE(alike);
    REQUIRE(mixed);
    CHECK(alike->standard.day == ParkedDay::usual);
    CHECK(mixed->standard.day == ParkedDay::coldest);
    CHECK(mixed->standard.lasts <= alike->standard.lasts + 1_min);
    CHECK(make_plan(system_of_text(in_the_frost(mild))).energy.autonomy.day == ParkedDay::coldest);
}

TEST_CASE("where a fridge decides the hottest day is the shorter, whatever the nights are") {
    const std::string cool = "[[day]]\non = 2\nlow = \"10 degC\"\nhigh = \"12 degC\"\n";
    const auto answer = autonomy_of(system_of_text(with_fridge(morning) + cool), {});
    REQUIRE(answer);
    CHECK(answer->standard.day == ParkedDay::hottest);
    CHECK(answer->standard.lasts == near(lasts(with_fridge(morning)), 1_min));
}

TEST_CASE("of two days that are as hot the one with the warmer night is the hottest, wherever it stands") {
    const std::string cool_nights = "[[day]]\non = 1\nlow = \"4 degC\"\n";
    CHECK(lasts(with_fridge(morning) + cool_nights) <= lasts(with_fridge(morning)) + 1_min);
}

TEST_CASE("in the frost no sun is counted on that warms the battery of a closed vehicle") {
    CHECK(lasts(in_the_frost({}, "closed vehicle")) <= lasts(in_the_frost({}, "shade")) + 1_min);
}

// A battery is replaced at 80 % of its rated capacity (IEEE 450, IEEE 1188; from memory).
TEST_CASE("where nobody says how worn the battery is, the hours at 80 % are told") {
    const Plan plan = make_plan(system_of_text(with_fridge(morning)));
    REQUIRE(plan.energy.worn);
    const Duration given = lasts(with_fridge(morning, "health = \"80 %\"\n"));
    const auto answer = autonomy_of(system_of_text(with_fridge(morning)), {});
    REQUIRE(answer);
    REQUIRE(answer->worn);
    CHECK(answer->worn->autonomy.lasts == near(given, 1_min));
    // A fifth less, but for the cool of the last night.
    CHECK(given < 0.9 * answer->standard.lasts);
    CHECK(given > 0.75 * answer->standard.lasts);
    CHECK(assumed(answer->assumptions, AssumptionCode::battery_new));
    CHECK(assumed(plan.assumptions, AssumptionCode::battery_new));
    const Plan told = make_plan(system_of_text(with_fridge(morning, "health = \"100 %\"\n")));
    CHECK_FALSE(told.energy.worn);
    CHECK_FALSE(assumed(told.assumptions, AssumptionCode::battery_new));
}

TEST_CASE("a trip that only a new battery holds is warned of, and holds or not as the profile's health says") {
    const auto trip = [](const std::string& health) {
        return make_plan(system_of_text(with_fridge("drives = \"08:30-08:50\"\n", health)));
    };
    const Plan plan = trip({});
    REQUIRE(plan.energy.holds());
    CHECK_FALSE(trip("health = \"80 %\"\n").energy.holds());
    const Finding* warned = found(plan.findings, FindingCode::new_battery_only);
    REQUIRE(warned);
    CHECK(warned->level == Level::warn);
    CHECK_FALSE(assumed(plan.assumptions, AssumptionCode::battery_new));
    CHECK_FALSE(found(trip("health = \"100 %\"\n").findings, FindingCode::new_battery_only));
    CHECK_FALSE(found(make_plan(system_of_text(with_fridge(morning))).findings, FindingCode::new_battery_only));
}

// Three regulators hold at least 12.9 to 13.5 V at 80 degC (service manuals, read): less than wakes a charger for a plain
// alternator, and more than one for a smart alternator asks for.
TEST_CASE("what a hot engine that idles leaves of the charge is told, where it leaves less") {
    const Plan plan = make_plan(system_of_text(with_fridge(morning)));
    const Assumption* idling = assumed(plan.assumptions, AssumptionCode::idling);
    REQUIRE(idling);
    CHECK(std::get<Voltage>(*idling->found) == near(13.0_V, 0.001_V));
    CHECK(plan.energy.idling.output == Current{});
    CHECK(assumed(plan.assumptions, AssumptionCode::charger_spare));
    const Plan spare = make_plan(system_of_text(with_fridge(morning, {}, "spare_current = \"60 A\"\n")));
    CHECK_FALSE(assumed(spare.assumptions, AssumptionCode::charger_spare));
    const Plan smart = make_plan(system_of_text(with_fridge(morning, {}, "alternator = \"smart\"\n")));
    CHECK_FALSE(assumed(smart.assumptions, AssumptionCode::idling));
    // Nobody drives, so nobody is told of engines.
    const Plan parked = make_plan(system_of_text(with_fridge({})));
    CHECK_FALSE(assumed(parked.assumptions, AssumptionCode::idling));
    CHECK_FALSE(assumed(parked.assumptions, AssumptionCode::charger_spare));
}

TEST_CASE("a plan on the sun alone needs no charger, and is sold none") {
    const System system = system_of_text(without_charger(in_july, panel));
    CHECK_FALSE(system.charged_by_driving);
    const Plan plan = make_plan(system);
    CHECK(plan.holds());
    CHECK(plan.energy.trip.ledger.from_sun > 20_Ah);
    CHECK(plan.energy.trip.ledger.from_charger == Charge{});
    CHECK_FALSE(plan.energy.settings.charger);
    CHECK(plan.energy.settings.regulator);
    for (const RunPlan& run : plan.runs) {
        CHECK(run.task.role != RunRole::feed);
        CHECK(run.task.role != RunRole::output);
    }
    CHECK_FALSE(found(plan.findings, FindingCode::no_charger));
}

TEST_CASE("a plan on the battery alone is a plan, and lasts as long as one whose charger gives nothing") {
    const Plan plan = make_plan(system_of_text(without_charger({})));
    CHECK(plan.runs.size() >= 1);
    CHECK(plan.energy.autonomy.lasts == near(make_plan(system_of_text(with_fridge({}))).energy.autonomy.lasts, 5_min));
    CHECK_FALSE(plan.energy.driving);
    CHECK(plan.energy.trip.ledger.from_charger == Charge{});
}

TEST_CASE("who drives without a charger is told that it charges nothing, and not that driving costs") {
    const Plan plan = make_plan(system_of_text(without_charger(morning)));
    const Finding* none = found(plan.findings, FindingCode::no_charger);
    REQUIRE(none);
    CHECK(none->level == Level::note);
    CHECK_FALSE(found(plan.findings, FindingCode::driving_loses));
    CHECK_FALSE(assumed(plan.assumptions, AssumptionCode::idling));
    CHECK(plan.energy.trip.ledger.from_charger == Charge{});
    // What the remedy says is done: it is gone, and the trip is the same.
    const Plan told = make_plan(system_of_text(without_charger(morning, "[charger]\nkind = \"none\"\n")));
    CHECK_FALSE(found(told.findings, FindingCode::no_charger));
    CHECK(told.energy.trip.lowest == plan.energy.trip.lowest);
}

TEST_CASE("a panel's regulator charges to the voltages of [charger] where that says that there is none") {
    const std::string none = "[charger]\nkind = \"none\"\nabsorption = \"14.2 V\"\n";
    const Plan plan = make_plan(system_of_text(without_charger(in_july, panel + none)));
    CHECK(plan.energy.settings.absorption == near(14.2_V, 0.001_V));
    CHECK(plan.holds());
}

// Conservation of charge: what the alternator does not have to spare cannot be charged.
TEST_CASE("a trip counts on no more current than the alternator has to spare") {
    const auto trip = [](const std::string& more) {
        return make_plan(system_of_text(
            "[trip]\ndays = 6\nlow = \"15 degC\"\nhigh = \"28 degC\"\ndrives = \"09:00-09:40\"\n[battery]\nchemistry = "
            "\"lfp\"\ncapacity = \"100 Ah\"\n[charger]\noutput = \"40 A\"\n" +
            more +
            "[[run]]\nto = \"charger\"\nlength = \"4 m\"\nsize = \"4 AWG\"\n[[fridge]]\ndraw = \"45 W\"\nrated = [{ "
            "around = \"25 "
            "degC\", a_day = \"22 Ah\" }]\n"));
    };
    const Plan spared = trip("[starter]\nspare_current = \"12 A\"\n"), limited = trip("input_limit = \"12 A\"\n");
    const Finding* told = found(spared.findings, FindingCode::spare_current);
    REQUIRE(told);
    CHECK(std::get<Current>(*told->found) > 40_A);
    CHECK(found(limited.findings, FindingCode::spare_current) == nullptr);
    CHECK(spared.energy.charger.input == near(12_A, 0.01_A));
    // Their feeds differ by a fuse.
    CHECK(in_amperes(spared.energy.charger.output) ==
          doctest::Approx(in_amperes(limited.energy.charger.output)).epsilon(0.01));
    CHECK(spared.energy.holds() == limited.energy.holds());
    CHECK(trip("").energy.charger.output > 3.0 * spared.energy.charger.output);
}

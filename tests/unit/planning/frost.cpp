// Lithium in frost: the right cause, the right remedy, and a heater that the trip reckons with.

#include "journeys.hpp"
#include "testing.hpp"
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

const Assumption* assumed(const Assumptions& assumptions, AssumptionCode code) {
    const auto one = std::find_if(assumptions.begin(), assumptions.end(),
                                  [&](const Assumption& assumption) { return assumption.code == code; });
    return one == assumptions.end() ? nullptr : &*one;
}

struct Winter {
    std::string chemistry = "lfp";
    std::string low = "-12 degC", high = "-6 degC";
    std::string drives = "08:00-11:00";
    std::string battery = {}, charger = {};
    int days = 6;
};

std::string text_of(const Winter& winter) {
    return "[trip]\ndays = " + std::to_string(winter.days) + "\nlow = \"" + winter.low + "\"\nhigh = \"" + winter.high +
           "\"\n" + (winter.drives.empty() ? "" : "drives = \"" + winter.drives + "\"\n") +
           "[battery]\nchemistry = \"" + winter.chemistry + "\"\ncapacity = \"100 Ah\"\nwhere = \"shade\"\n" +
           winter.battery + "[charger]\noutput = \"20 A\"\n" + winter.charger +
           "[[run]]\nto = \"charger\"\nlength = \"5 m\"\n"
           "[[load]]\nname = \"air heater\"\ndraw = \"10 W\"\nhours = \"00:00-24:00\"\nessential = true\n";
}

Plan plan_of(const Winter& winter) { return make_plan(system_of_text(text_of(winter))); }

Charge used_by_heater(const TripResult& trip) {
    for (const ConsumerResult& one : trip.served)
        if (one.name == battery_heater_name) return one.used;
    return {};
}

}  // namespace

TEST_CASE("lithium that is never charged for frost is told to be warmed, not to be driven longer") {
    const Plan plan = plan_of({});
    CHECK_FALSE(plan.energy.holds());
    const Finding* cold = found(plan.findings, FindingCode::too_cold_to_charge);
    REQUIRE(cold);
    CHECK(*cold->found == *cold->allowed);
    const Finding* deep = found(plan.findings, FindingCode::depth_limit);
    REQUIRE(deep);
    REQUIRE(deep->remedy.changes.size() == 1);
    CHECK(deep->remedy.changes.front().key == "battery.heater");
    CHECK_FALSE(found(plan.findings, FindingCode::driving_loses));
    // As the remedy says it.
    const Plan warmed = plan_of({.battery = "heater = \"" + deep->remedy.changes.front().value + "\"\n"});
    CHECK(warmed.energy.holds());
    CHECK_FALSE(found(warmed.findings, FindingCode::depth_limit));
    CHECK_FALSE(found(warmed.findings, FindingCode::too_cold_to_charge));
}

TEST_CASE("a heater takes the beginning of each drive, stands in the ledger, and draws nothing without a source") {
    const Plan plan = plan_of({.battery = "heater = \"60 W\"\n"});
    const TripResult& trip = plan.energy.trip;
    const Charge heater = used_by_heater(trip);
    // Six drives: at least what 12 kg take from -12 to 5 degC without loss, at most its power over all the time driven.
    CHECK(heater > 6.0 * watt_hours(12 * 17 / 3.6) / 14.6_V);
    CHECK(heater < 60_W * trip.driven / 13_V);
    CHECK(abs(trip.ledger.open()) < 1e-9 * trip.ledger.throughput());
    REQUIRE(plan.energy.warmth.to_warm);
    CHECK(*plan.energy.warmth.to_warm > minutes(50));
    CHECK(*plan.energy.warmth.to_warm < minutes(100));
    CHECK(assumed(plan.assumptions, AssumptionCode::battery_heater));
    // Engine and sun off, it draws nothing: the hours are those of the cold battery.
    CHECK(plan.energy.autonomy.lasts == near(plan_of({}).energy.autonomy.lasts, minutes(1)));
    const Plan parked = plan_of({.drives = {}, .battery = "heater = \"60 W\"\n"});
    CHECK(used_by_heater(parked.energy.trip) == Charge{});
}

TEST_CASE("a heater too weak for the drive is told so, with one that was tried") {
    const Plan plan = plan_of({.drives = "08:00-09:30", .battery = "heater = \"20 W\"\n", .days = 2});
    const Finding* cold = found(plan.findings, FindingCode::too_cold_to_charge);
    REQUIRE(cold);
    REQUIRE(cold->remedy.changes.size() == 1);
    const Plan better =
        plan_of({.drives = "08:00-09:30", .battery = "heater = \"" + cold->remedy.changes.front().value + "\"\n"});
    CHECK_FALSE(found(better.findings, FindingCode::too_cold_to_charge));
}

TEST_CASE("the stronger a heater, the sooner lithium is charged and the better it stands") {
    std::optional<Ratio> weaker;
    for (const char* heater : {"", "heater = \"30 W\"\n", "heater = \"60 W\"\n", "heater = \"120 W\"\n"}) {
        CAPTURE(heater);
        const Ratio lowest = plan_of({.battery = heater}).energy.trip.lowest;
        if (weaker) CHECK(lowest >= *weaker - 0.001);
        weaker = lowest;
    }
}

TEST_CASE("a lead battery has no heater") {
    auto read = read_document_text("test", text_of({.chemistry = "agm", .battery = "heater = \"60 W\"\n"}));
    Faults faults;
    const Profile profile = read_profile(std::get<Document>(read).root, faults);
    const auto system = resolve(profile, built_in_tables());
    REQUIRE(std::holds_alternative<Faults>(system));
    CHECK(std::get<Faults>(system).front().path == "battery.heater");
}

TEST_CASE("lithium that takes charge and is cold is counted on for what its cells bear, and the charger is told of") {
    const Plan cold = plan_of({.low = "2 degC", .high = "6 degC", .battery = "start_soc = \"60 %\"\n"});
    const Finding* hard = found(cold.findings, FindingCode::charged_in_the_cold);
    REQUIRE(hard);
    CHECK(std::get<Current>(*hard->allowed) == near(10_A, 1e-6_A));
    const Plan mild = plan_of({.low = "12 degC", .high = "16 degC", .battery = "start_soc = \"60 %\"\n"});
    CHECK_FALSE(found(mild.findings, FindingCode::charged_in_the_cold));
    REQUIRE(cold.energy.driving);
    CHECK(cold.energy.driving->first_hour < 10.1_Ah);
    CHECK(mild.energy.driving->first_hour > 15_Ah);
}

TEST_CASE("below -20 degC lithium's own guard may switch everything off: a stop, with the engine off too") {
    const Winter arctic{.low = "-28 degC", .high = "-18 degC"};
    const Plan plan = plan_of(arctic);
    const Finding* stop = found(plan.findings, FindingCode::battery_too_cold);
    REQUIRE(stop);
    CHECK(stop->stops());
    const auto hours = autonomy_of(system_of_text(text_of(arctic)), {});
    REQUIRE(hours);
    CHECK_FALSE(hours->holds());
    CHECK_FALSE(found(plan_of({}).findings, FindingCode::battery_too_cold));
    CHECK_FALSE(found(plan_of({.chemistry = "agm", .low = "-28 degC", .high = "-18 degC"}).findings,
                      FindingCode::battery_too_cold));
}

TEST_CASE("a charger carries the loads of lithium that is empty and too cold to charge") {
    const Plan plan =
        plan_of({.low = "-15 degC", .high = "-15 degC", .drives = "00:00-24:00", .battery = "start_soc = \"25 %\"\n"});
    const TripResult& trip = plan.energy.trip;
    CHECK(trip.essential_off() == Duration{});
    CHECK(trip.ledger.from_charger > 0.95 * 10_W * trip.lasted / 14.6_V);
    CHECK(trip.end == near(25_percent, 0.1_percent));
    CHECK(abs(trip.ledger.open()) < 1e-9 * trip.ledger.throughput());
}

TEST_CASE("in the cold a sensor that nobody told of is said, and decides as a warning") {
    const Winter told{.chemistry = "agm", .low = "-8 degC", .high = "0 degC", .drives = "08:00-10:00"};
    Winter without = told, with = told;
    without.charger = "temperature_sensor = false\n";
    with.charger = "temperature_sensor = true\n";
    const Plan plan = plan_of(told);
    const bool said =
        found(plan.findings, FindingCode::sensor_assumed) || assumed(plan.assumptions, AssumptionCode::sensor_assumed);
    CHECK(said == (plan.energy.trip.holds() && plan_of(without).energy.trip.lowest < plan.energy.trip.lowest - 0.02));
    CHECK(said);
    CHECK_FALSE(found(plan_of(with).findings, FindingCode::sensor_assumed));
    CHECK_FALSE(assumed(plan_of(with).assumptions, AssumptionCode::sensor_assumed));
}

TEST_CASE("a discharged battery near freezing is told how much charge the cold asks for") {
    const Plan plan = plan_of({.chemistry = "flooded",
                               .low = "-20 degC",
                               .high = "-20 degC",
                               .drives = {},
                               .battery = "start_soc = \"30 %\"\n",
                               .days = 1});
    const Finding* freezes = found(plan.findings, FindingCode::acid_freezes);
    REQUIRE(freezes);
    CHECK(freezes->stops());
    const Argument* keep = find_argument(freezes->arguments, "keep");
    REQUIRE(keep);
    // Half charged it freezes at -26 degC, at a quarter at -15 degC (US Army TM 5-4210-230): -25 degC lies near a half.
    CHECK(in_percent(std::get<Ratio>(std::get<Measure>(keep->value))) == near(47.5, 1));
}

TEST_CASE("how cold a battery gets stands under what was assumed, with what that leaves of it") {
    const Plan plan = plan_of({.chemistry = "agm"});
    const Assumption* cold = assumed(plan.assumptions, AssumptionCode::battery_cold);
    REQUIRE(cold);
    CHECK(std::get<Temperature>(*cold->found) < celsius(-8));
    CHECK(find_argument(cold->arguments, "charging"));
    CHECK_FALSE(assumed(plan_of({.chemistry = "agm", .low = "12 degC", .high = "20 degC"}).assumptions,
                        AssumptionCode::battery_cold));
}

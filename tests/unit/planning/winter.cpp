// Sun, frost and heat: what a trip says where a careful traveller would speak.

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

const Finding* found(const Findings& findings, std::string_view code) {
    const auto one = std::find_if(findings.begin(), findings.end(),
                                  [&](const Finding& finding) { return show(finding.code) == code; });
    return one == findings.end() ? nullptr : &*one;
}

/// Two winter weeks in the south of England on the sun alone; `clearness` is a line of its [trip], or nothing.
std::string winter_on_the_sun(std::string_view start, const std::string& clearness = {}) {
    return "[trip]\ndays = 14\nlow = \"2 degC\"\nhigh = \"8 degC\"\nstart = " + std::string(start) +
           "\nlatitude = \"51.5 deg\"\n" + clearness + R"(
[battery]
chemistry = "agm"
capacity = "110 Ah"
where = "14 degC"
[charger]
output = "25 A"
[solar]
panel = "200 W"
[[run]]
to = "charger"
length = "5 m"
[[fridge]]
draw = "45 W"
rated = [{ around = "25 degC", a_day = "14 Ah" }]
where = "18 degC"
[[load]]
name = "lamps"
draw = "12 W"
hours = "17:00-22:00"
essential = true
)";
}

std::string frozen(std::string_view chemistry, std::string_view low, std::string_view high) {
    return "[trip]\ndays = 3\nlow = \"" + std::string(low) + "\"\nhigh = \"" + std::string(high) +
           "\"\n[battery]\nchemistry = \"" + std::string(chemistry) +
           "\"\ncapacity = \"100 Ah\"\n[charger]\noutput = \"20 A\"\n[[run]]\nto = \"charger\"\nlength = \"5 m\"\n"
           "[[load]]\nname = \"heater\"\ndraw = \"12 W\"\nhours = \"00:00-24:00\"\n";
}

/// A fridge too weak for the heat, driven to every morning.
std::string hot(std::string_view draw, std::string_view place = "canopy") {
    return "[trip]\ndays = 5\nlow = \"25 degC\"\nhigh = \"45 degC\"\ndrives = \"08:00-10:00\"\n[battery]\nchemistry = "
           "\"agm\"\ncapacity = \"100 Ah\"\n[charger]\noutput = \"25 A\"\n[[run]]\nto = \"charger\"\nlength = \"5 m\"\n"
           "[[fridge]]\ndraw = \"" +
           std::string(draw) + "\"\nrated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\nwhere = \"" +
           std::string(place) + "\"\n";
}

Plan plan_of_text(const std::string& toml) { return make_plan(system_of_text(toml)); }

}  // namespace

TEST_CASE("a winter on the sun alone at 51 degrees north does not hold, and the sky that was assumed is told") {
    const Plan winter = plan_of_text(winter_on_the_sun("2026-12-10"));
    CHECK_FALSE(winter.energy.holds());
    const Finding* sky = found(winter.findings, "clearness-assumed");
    REQUIRE(sky);
    CHECK(sky->level == Level::warn);
    CHECK(plan_of_text(winter_on_the_sun("2026-07-10")).energy.holds());
    CHECK_FALSE(
        found(plan_of_text(winter_on_the_sun("2026-12-10", "clearness = \"50 %\"\n")).findings, "clearness-assumed"));
}

TEST_CASE("each day of a long trip has the usual sky of its own month") {
    const std::string from_autumn = winter_on_the_sun("2026-09-20");
    std::string whole = from_autumn;
    whole.replace(whole.find("days = 14"), 9, "days = 99");
    whole.replace(whole.find("where = \"14 degC\""), 0, "start_soc = \"60 %\"\n");  // so that it takes all there is
    const TripResult trip = plan_of_text(whole).energy.trip;
    REQUIRE(trip.days.size() == 99);
    // The clear sky alone falls by less than half in that time at this latitude's panel; clouds take the rest.
    CHECK(trip.days[95].charged < 0.5 * trip.days[1].charged);
}

TEST_CASE("a discharged lead battery near freezing is a stop, a full or a lithium one is not") {
    const Plan flat = plan_of_text(frozen("flooded", "-30 degC", "-20 degC"));
    const Finding* freezes = found(flat.energy.findings, "acid-freezes");
    REQUIRE(freezes);
    CHECK(freezes->stops());
    CHECK_FALSE(flat.energy.holds());
    CHECK(found(plan_of_text(frozen("agm", "-30 degC", "-20 degC")).findings, "acid-freezes"));
    CHECK_FALSE(found(plan_of_text(frozen("flooded", "-8 degC", "2 degC")).findings, "acid-freezes"));
    CHECK_FALSE(found(plan_of_text(frozen("lfp", "-30 degC", "-20 degC")).findings, "acid-freezes"));
}

TEST_CASE("a charger's sensor follows the cold to freezing point and no further, and none follows nothing") {
    const Compensation lead = compensation_of(*find_chemistry(built_in_tables(), "agm"));
    CHECK(compensated_voltage(14.4_V, lead, celsius(-40)).voltage == near(15.0_V, 0.001_V));
    CHECK(compensated_voltage(14.4_V, lead, 60_degC).voltage == near(14.04_V, 0.001_V));
    const std::string cold =
        "[trip]\nlow = \"-20 degC\"\nhigh = \"-10 degC\"\ndrives = \"08:00-11:00\"\n[battery]\n"
        "chemistry = \"agm\"\ncapacity = \"100 Ah\"\nstart_soc = \"90 %\"\n[[run]]\nto = "
        "\"charger\"\nlength = \"5 m\"\n[charger]\noutput = \"20 A\"\nabsorption = \"14.6 V\"\n";
    const Plan with_sensor = plan_of_text(cold);
    const Finding* high = found(with_sensor.findings, "charge-voltage-cold");
    REQUIRE(high);
    CHECK(std::get<Voltage>(*high->found) == near(15.2_V, 0.001_V));
    CHECK_FALSE(found(plan_of_text(cold + "temperature_sensor = false\n").findings, "charge-voltage-cold"));
}

TEST_CASE("a fridge that cannot stay cold stops trip and hours alike") {
    const System system = system_of_text(hot("20 W"));
    const Plan plan = make_plan(system);
    REQUIRE(found(plan.energy.findings, "fridge-overwhelmed"));
    CHECK_FALSE(plan.energy.holds());
    CHECK_FALSE(plan.holds());
    const auto hours = autonomy_of(system, {});
    REQUIRE(hours);
    CHECK_FALSE(hours->holds());
    CHECK(found(hours->stops, "fridge-overwhelmed"));
}

TEST_CASE("a weaker compressor never spares the battery, for it owes what it could not take out") {
    for (const char* place : {"canopy", "closed vehicle"}) {
        CAPTURE(place);
        std::optional<Charge> stronger;
        for (const char* draw : {"60 W", "45 W", "35 W", "30 W"}) {
            CAPTURE(draw);
            const TripResult trip = plan_of_text(hot(draw, place)).energy.trip;
            const ConsumerResult& fridge = trip.served.front();
            if (fridge.off > Duration{}) break;
            const Charge all = fridge.used + fridge.owed / volts(12.5);
            if (stronger) CHECK(all >= 0.97 * *stronger);
            stronger = all;
        }
    }
}

TEST_CASE("a fridge that was switched off takes out afterwards what came in meanwhile") {
    Consumer fridge{
        "fridge", watts(48),
        {},       true,
        true,     {{LowVoltageCutOff{volts(12.2), volts(12.7)}, LowVoltageCutOff{volts(12.2), volts(12.7)}}}};
    Scenario scenario = lone_scenario(usual_battery("agm", ampere_hours(40)), {fridge});
    scenario.start_soc = percent(60);
    for (int hour = 0; hour < 60; ++hour) add_interval(scenario, hours(1), {0.3}, hour < 24 ? Current{} : amperes(20));
    const TripResult trip = simulate(scenario);
    const ConsumerResult& served = trip.served.front();
    REQUIRE(served.off > hours(4));
    CHECK(served.owed == near(Energy{}, watt_hours(1)));
    // All the heat of sixty hours, at some 12 to 14.4 V.
    const Energy needed = 0.3 * watts(48) * hours(60);
    CHECK(served.used > needed / volts(14.5));
    CHECK(served.used < needed / volts(12.0));
}

// Sun, frost and heat: what a trip says where a careful traveller would speak.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/simulation/build_scenario.hpp"
#include "voltwright/simulation/scenario_inputs.hpp"
#include "voltwright/simulation/simulate.hpp"
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

bool assumes(const Plan& plan, AssumptionCode code) {
    return std::any_of(plan.assumptions.begin(), plan.assumptions.end(),
                       [code](const Assumption& one) { return one.code == code; });
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
    // The clearest place of that latitude would not save it: what was assumed is said, and nobody is warned of it.
    REQUIRE(winter.energy.assumed_sky);
    CHECK_FALSE(winter.energy.assumed_sky->decides);
    CHECK(assumes(winter, AssumptionCode::sky));
    const Plan summer = plan_of_text(winter_on_the_sun("2026-07-10"));
    CHECK(summer.energy.holds());
    CHECK(assumes(summer, AssumptionCode::sky));
    const Plan told = plan_of_text(winter_on_the_sun("2026-12-10", "clearness = \"50 %\"\n"));
    CHECK_FALSE(assumes(told, AssumptionCode::sky));
    CHECK_FALSE(found(told.findings, "clearness-assumed"));
}

TEST_CASE("where the sky that was assumed decides the verdict, that is a warning") {
    // Somewhere between too small a panel and one that does anywhere.
    std::optional<Finding> sky;
    for (int watts = 20; watts <= 400 && !sky; watts += 10) {
        std::string text = winter_on_the_sun("2026-09-01");
        text.replace(text.find("\"200 W\""), 7, "\"" + std::to_string(watts) + " W\"");
        text.replace(text.find("\"51.5 deg\""), 10, "\"36 deg\"");
        text.replace(text.find("days = 14"), 9, "days = 29");
        const Plan plan = plan_of_text(text);
        const Finding* one = found(plan.findings, "clearness-assumed");
        CHECK((one != nullptr) != assumes(plan, AssumptionCode::sky));
        if (!one) continue;
        sky = *one;
        const Argument* other = find_argument(one->arguments, plan.energy.trip.holds() ? "fails_at" : "holds_at");
        REQUIRE(other);
        // What it says is so: with that clearness, given, the verdict is the other one.
        const std::string at = show(std::get<Measure>(other->value));
        text.replace(text.find("latitude"), 0, "clearness = \"" + at + "\"\n");
        CHECK(plan_of_text(text).energy.trip.holds() != plan.energy.trip.holds());
    }
    REQUIRE(sky);
    CHECK(sky->level == Level::warn);
}

TEST_CASE("a trip on the sun is judged on three dull days in a row, and the usual sun is told beside it") {
    std::string small = winter_on_the_sun("2026-07-10", "clearness = \"62 %\"\n");
    small.replace(small.find("\"200 W\""), 7, "\"80 W\"");
    const Plan july = plan_of_text(small);
    REQUIRE(july.energy.dull);
    const auto& [run, first, usual] = *july.energy.dull;
    CHECK(run.count == 3);
    CHECK(july.energy.trip.days.size() == 14);
    // A dull day of a month with an index of 0.465 brings 46 to 49 % of its usual sun.
    CHECK(in_ratio(first.share.value) == near(0.475, 0.02));
    CHECK(july.energy.trip.ledger.from_sun < usual.ledger.from_sun);
    CHECK(july.energy.trip.lowest < usual.lowest);
    // Where a battery takes all that comes, a dull day brings its share and nothing more.
    const Plan winter = plan_of_text(winter_on_the_sun("2026-12-10", "clearness = \"37 %\"\n"));
    REQUIRE(winter.energy.dull);
    const auto day = static_cast<std::size_t>(winter.energy.dull->run.first) - 1;
    const double brings = winter.energy.trip.days[day].charged / winter.energy.dull->usual.days[day].charged;
    CHECK(brings == near(in_ratio(winter.energy.dull->first.share.value), 0.04));
    CHECK_FALSE(plan_of_text(winter_on_the_sun("2026-07-10", "dull_days = 0\n")).energy.dull);
    // A day's trip is judged on a dull day.
    std::string short_one = winter_on_the_sun("2026-07-10");
    short_one.replace(short_one.find("days = 14"), 9, "days = 1");
    const Plan one_day = plan_of_text(short_one);
    REQUIRE(one_day.energy.dull);
    CHECK(one_day.energy.dull->run.count == 1);
}

TEST_CASE("a battery's heater on dull days has the sun of those days, and not what it would have had") {
    const System van = system_of_text(
        "[trip]\ndays = 4\nlow = \"-6 degC\"\nhigh = \"1 degC\"\nstart = 2026-02-10\nlatitude = \"47 deg\"\n"
        "dull_days = 4\n[battery]\nchemistry = \"lfp\"\ncapacity = \"100 Ah\"\nheater = \"60 W\"\nwhere = \"shade\"\n"
        "[solar]\npanel = \"300 W\"\n[[load]]\nname = \"lamp\"\ndraw = \"10 W\"\nhours = \"00:00-24:00\"\n");
    const Plan plan = make_plan(van);
    REQUIRE(plan.energy.dull);
    CHECK(plan.energy.dull->run.count == 4);
    // The whole trip under that sky, built at once.
    const ScenarioInputs inputs = scenario_inputs(van, laid_runs(plan.runs), built_in_tables());
    const TripResult all = simulate(trip_scenario(under_sky(inputs, {.dull = true})), {.cut_off = plan.energy.guard});
    CHECK(in_ratio(plan.energy.trip.lowest) == doctest::Approx(in_ratio(all.lowest)).epsilon(1e-9));
    CHECK(in_ratio(plan.energy.trip.end) == doctest::Approx(in_ratio(all.end)).epsilon(1e-9));
    CHECK(all.lowest < plan.energy.in_usual_sun().lowest);
}

TEST_CASE("in a long trip no place of the dull days is much harder than the one that was found") {
    const System van = system_of_text(
        "[trip]\ndays = 120\nlow = \"4 degC\"\nhigh = \"14 degC\"\nstart = 2026-09-01\nlatitude = \"44 deg\"\n"
        "[battery]\nchemistry = \"agm\"\ncapacity = \"120 Ah\"\nwhere = \"18 degC\"\n[solar]\npanel = \"150 W\"\n"
        "[[load]]\nname = \"lamp\"\ndraw = \"9 W\"\nhours = \"00:00-24:00\"\n");
    const Plan plan = make_plan(van);
    REQUIRE(plan.energy.dull);
    const ScenarioInputs inputs = scenario_inputs(van, laid_runs(plan.runs), built_in_tables());
    Ratio hardest = 1.0;
    for (int first = 1; first <= 118; ++first)
        hardest = std::min(hardest, simulate(trip_scenario(under_sky(inputs, {.dull = true}, DayRun{first, 3})),
                                             {.cut_off = plan.energy.guard})
                                        .lowest);
    CHECK(plan.energy.trip.lowest <= hardest + 0.005);
}

TEST_CASE("days whose sky the profile tells stay as they are told") {
    std::string text = winter_on_the_sun("2026-07-10");
    text.replace(text.find("days = 14"), 9, "days = 4");
    const Plan told = plan_of_text(text + "[[day]]\non = \"1-4\"\nclearness = \"60 %\"\n");
    CHECK_FALSE(told.energy.dull);
    const Plan half = plan_of_text(text + "[[day]]\non = \"1-2\"\nclearness = \"60 %\"\n");
    REQUIRE(half.energy.dull);
    const auto charged = [](const TripResult& trip, std::size_t day) {
        return in_ampere_hours(trip.days[day].charged);
    };
    CHECK(charged(half.energy.trip, 0) == near(charged(half.energy.dull->usual, 0), 1e-9));
    CHECK(charged(half.energy.trip, 3) < charged(half.energy.dull->usual, 3));
}

TEST_CASE("a trip that only dull days stop says so") {
    const Finding* low = nullptr;
    for (int watts = 60; watts <= 300 && !low; watts += 10) {
        std::string text = winter_on_the_sun("2026-08-10");
        text.replace(text.find("\"200 W\""), 7, "\"" + std::to_string(watts) + " W\"");
        text.replace(text.find("\"110 Ah\""), 8, "\"36 Ah\"");
        const Plan plan = plan_of_text(text);
        if (plan.energy.holds() || !plan.energy.holds_in_usual_sun()) continue;
        low = found(plan.energy.findings, "depth-limit");
        REQUIRE(low);
        CHECK(low->stops());
        CHECK(show(*low).find("with 3 dull days in a row") != std::string::npos);
    }
    CHECK(low);
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

TEST_CASE("the compressor that an overwhelmed fridge asks for keeps up, and a weaker one does not") {
    const Plan plan = plan_of_text(hot("20 W"));
    const Finding* overwhelmed = found(plan.energy.findings, "fridge-overwhelmed");
    REQUIRE(overwhelmed);
    const Argument* draws = find_argument(overwhelmed->arguments, "draws");
    REQUIRE(draws);
    const double asked = in_watts(std::get<Power>(std::get<Measure>(draws->value)));
    CHECK_FALSE(found(plan_of_text(hot(std::to_string(1.001 * asked) + " W")).energy.findings, "fridge-overwhelmed"));
    CHECK(found(plan_of_text(hot(std::to_string(0.98 * asked) + " W")).energy.findings, "fridge-overwhelmed"));
}

// EU 2019/2016, Annex IV (read): fresh food is kept at 0 to 8 °C.
TEST_CASE("a fridge that lags for some hours stops the trip only where fresh food would pass 8 degC") {
    bool warned = false;
    for (int draw = 60; draw >= 20; --draw) {
        CAPTURE(draw);
        const Plan plan = plan_of_text(hot(std::to_string(draw) + " W"));
        const Finding* overwhelmed = found(plan.energy.findings, "fridge-overwhelmed");
        if (!overwhelmed) continue;
        const FridgeNeed& need = plan.energy.fridges.front();
        CHECK(overwhelmed->stops() == (need.warms_to > 8_degC));
        warned = warned || !overwhelmed->stops();
    }
    CHECK(warned);
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

// What a system makes of its profile: which voltage each run is judged at.

#include "journeys.hpp"
#include "testing.hpp"

using namespace voltwright;
using namespace voltwright::testing;

TEST_CASE("a load on the starter battery is judged at rest, what leads to the charger with the engine running") {
    const System system = system_of_text(R"(
[trip]
low = "10 degC"
high = "30 degC"
[battery]
chemistry = "agm"
capacity = "100 Ah"
[charger]
output = "20 A"
[[run]]
to = "charger"
length = "5 m"
[[run]]
from = "starter"
to = "block"
length = "1 m"
[[run]]
from = "block"
to = "alarm"
length = "2 m"
[[load]]
name = "alarm"
draw = "2 W"
)");
    for (const SystemRun& run : system.runs) {
        CAPTURE(*run.run.name);
        if (run.from.name == "starter" || run.from.name == "block")
            CHECK(*run.supply.normal == (run.to.name == "charger" ? volts(14.2) : volts(12.0)));
    }
}

// By hand from data/chemistries.toml: AGM is charged to 14.4 V at 25 degC, 24 mV more for each kelvin of cold, and no more
// below 0 degC: 14.4 V + 25 K · 24 mV/K = 15.0 V, over 0.6 ohm 25 A. At 14.4 V it would be 24 A.
TEST_CASE("a heater is judged at the highest voltage of what it hangs on: of the house battery's coldest charging") {
    const auto design_of = [](const char* source, const char* low) {
        const System system = system_of_text(std::string("[trip]\nlow = \"") + low +
                                             "\"\nhigh = \"10 degC\"\n[battery]\nchemistry = \"agm\"\ncapacity = "
                                             "\"100 Ah\"\n[charger]\noutput = \"20 A\"\n[[run]]\nto = \"charger\"\n"
                                             "length = \"5 m\"\n[[run]]\nto = \"heater\"\nlength = \"2 m\"\nfrom = \"" +
                                             source + "\"\n[[load]]\nname = \"heater\"\ndraw = \"0.6 ohm\"\n");
        const auto run = run_to(system, {PlaceKind::consumer, "heater"});
        REQUIRE(run);
        return design_current(system.runs[*run].load).current;
    };
    CHECK(design_of("battery", "-30 degC") == near(amperes(25.0), amperes(0.01)));
    CHECK(design_of("battery", "0 degC") == near(amperes(25.0), amperes(0.01)));
    // On the starter battery the alternator's 14.2 V is the most.
    CHECK(design_of("starter", "-30 degC") == near(amperes(14.2 / 0.6), amperes(0.01)));
}

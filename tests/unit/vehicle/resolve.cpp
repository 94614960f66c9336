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

// Edges of the march and of what it is given.

#include "voltwright/trip/march.hpp"
#include "journeys.hpp"
#include "testing.hpp"

using namespace voltwright;
using namespace voltwright::testing;

namespace {

const std::string vehicle = R"([trip]
days = 3
low = "20 degC"
high = "30 degC"
[battery]
chemistry = "lfp"
capacity = "200 Ah"
[charger]
output = "25 A"
[[run]]
to = "charger"
length = "6 m"
[[fridge]]
draw = "50 W"
rated = [{ around = "25 degC", a_day = "20 Ah" }]
)";

Trip trip_of(const std::string& text) {
    const System system = system_of_text(text);
    return march(make_journey(system, {}, built_in_tables()));
}

}  // namespace

TEST_CASE("a march ends where it is told to, within an interval too") {
    Consumer load{"load", amperes(5), Resistance{}, false, false, {}};
    Journey journey = lone_journey(usual_battery("agm", ampere_hours(100)), {load});
    for (int hour = 0; hour < 4; ++hour) add_interval(journey, hours(1), {1.0});
    MarchOptions options;
    options.until = hours(2.5);
    const Trip trip = march(journey, options);
    CHECK(trip.lasted == near(hours(2.5), seconds(1e-6)));
    CHECK(trip.ledger.used == near(ampere_hours(12.5), ampere_hours(1e-9)));
}

// 10 kg of water from 25 to 5 degC give up 10·4.186·20 kJ = 837 kJ, 233 Wh; at a coefficient of performance between 1 and
// 3 that is 6.5 to 19.4 Ah at 12 V (textbook constants; energy at the battery is a little more than at 12 V).
TEST_CASE("what is put in warm costs what its heat says, at any time of day") {
    const Charge without = trip_of(vehicle).ledger.used;
    for (const char* at : {"00:00", "13:20", "24:00"}) {
        CAPTURE(at);
        const std::string restock =
            "[[fridge.restock]]\non = \"1\"\nmass = \"10 kg\"\nfrom = \"25 degC\"\nat = \"" + std::string(at) + "\"\n";
        const Charge more = trip_of(vehicle + restock).ledger.used - without;
        CHECK(more > ampere_hours(6.0));
        CHECK(more < ampere_hours(19.4));
    }
}

TEST_CASE("a battery that is flat leaves its loads without power, and takes them back when it is charged") {
    Consumer load{"load", watts(60), milliohms(20), true, false, {}};
    for (const char* chemistry : {"flooded", "agm", "gel", "lfp"}) {
        CAPTURE(chemistry);
        Journey journey = lone_journey(usual_battery(chemistry, ampere_hours(40)), {load});
        for (int hour = 0; hour < 24; ++hour)
            add_interval(journey, hours(1), {1.0}, hour < 20 ? Current{} : amperes(20));
        const Trip trip = march(journey);
        CHECK(trip.served.front().off > hours(8));
        CHECK(trip.served.front().off < hours(15));
        CHECK(trip.served.front().unserved ==
              near(watt_hours(60.0 * in_hours(trip.served.front().off)), watt_hours(0.01)));
        CHECK(trip.end > percent(20));
        CHECK(abs(trip.ledger.open()) < 1e-9 * trip.ledger.throughput());
    }
}

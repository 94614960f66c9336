// The circuit at the battery's terminals: where the level is, and where the charger's mode changes.

#include "voltwright/simulation/segment.hpp"
#include "journeys.hpp"
#include "testing.hpp"

#include <algorithm>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

constexpr Resistance charger_cable = milliohms(10);

/// A battery with a charger of 20 A to 14.4 V, and a load of so many amperes.
Circuit charged(const HouseBattery& battery, Current charger, Current load = Current{}) {
    Circuit circuit = circuit_of(battery, charger_cable);
    circuit.connections.charger = charger;
    circuit.connections.target = volts(14.4);
    circuit.connections.takes_charge = true;
    if (load > Current{}) circuit.connections.running.push_back({{load, Resistance{}}, 0});
    circuit.fed = charger > Current{};
    invalidate(circuit);
    return circuit;
}

Voltage at_charger(const OperatingPoint& point) { return point.terminals + charger_cable * point.source; }

}  // namespace

TEST_CASE(
    "below the transition the charger gives its current, above it holds its voltage, and both meet in one point") {
    for (const char* chemistry : {"flooded", "agm", "gel", "lfp"}) {
        CAPTURE(chemistry);
        const HouseBattery battery = usual_battery(chemistry, ampere_hours(100));
        Circuit circuit = charged(battery, amperes(20));
        std::optional<Ratio> transition;
        // From the last mark on a full battery is what ends the charge.
        const double last = in_ratio(battery.levels[battery_marks - 2].level);
        for (double level = 0.3; level < std::min(last, 0.999); level += 0.001) {
            const KineticState charge = kinetic_state_at(battery.kinetics, battery.whole, Ratio{level});
            const Segment segment = locate_segment(circuit, charge, Ratio{level});
            const OperatingPoint flow = flow_at(circuit, Ratio{level});
            if (segment.mode == ChargeMode::constant_current) {
                CHECK(!transition);
                CHECK(flow.source == near(amperes(20), amperes(1e-3)));
                CHECK(at_charger(flow) <= volts(14.4) + millivolts(5));
            } else {
                CHECK(at_charger(flow) == near(volts(14.4), volts(1e-5)));
                CHECK(flow.source <= amperes(20.05));
                if (!transition) {
                    transition = segment.low;
                    // The segment below ends in the very point that this one begins with.
                    const OperatingPoint begins = low_end(circuit);
                    locate_segment(circuit, charge, segment.low - Ratio{1e-6});
                    CHECK(high_end(circuit).terminals == begins.terminals);
                    CHECK(high_end(circuit).stored == begins.stored);
                }
            }
        }
        // Lithium of low resistance comes to its absorption voltage only where it is full.
        CHECK(transition.has_value() == (std::string_view(chemistry) != "lfp"));
    }
}

TEST_CASE("at the bottom of a segment the level belongs to it when it rises and to the one below when it falls") {
    const HouseBattery battery = usual_battery("agm", ampere_hours(100));
    // One that counts while the battery gives, too.
    const auto* counted = std::find_if(battery.levels.begin(), battery.levels.end(), [](const BatteryLevel& one) {
        return !one.charging_only && one.level > percent(40);
    });
    const Ratio mark = counted->level;
    const KineticState charge = kinetic_state_at(battery.kinetics, battery.whole, mark);
    Circuit falling = charged(battery, Current{}, amperes(5));
    CHECK(locate_segment(falling, charge, mark).high == mark);
    CHECK(!rises(falling, charge, mark));
    Circuit rising = charged(battery, amperes(20), amperes(5));
    CHECK(locate_segment(rising, charge, mark).low == mark);
    CHECK(rises(rising, charge, mark));
}

TEST_CASE("what the cold keeps back is below empty: nothing of it comes out") {
    const HouseBattery battery = usual_battery("agm", ampere_hours(100));
    Circuit circuit = charged(battery, Current{}, amperes(5));
    set_derating(circuit, percent(30));
    CHECK(effective_level(circuit, percent(30)) == near(Ratio{0.0}, Ratio{1e-12}));
    CHECK(effective_level(circuit, percent(100)) == near(Ratio{1.0}, Ratio{1e-12}));
    // By hand: 0.3 + 0.7·0.5
    CHECK(level_at_effective(circuit, percent(50)) == near(percent(65), Ratio{1e-12}));
    circuit.depleted = true;
    circuit.connections.running.clear();
    invalidate(circuit);
    const KineticState charge = kinetic_state_at(battery.kinetics, battery.whole, percent(20));
    const Segment segment = locate_segment(circuit, charge, percent(20));
    CHECK(segment.low == Ratio{0.0});
    CHECK(segment.high == percent(30));
    CHECK(flow_at(circuit, percent(20)).stored == Current{});
}

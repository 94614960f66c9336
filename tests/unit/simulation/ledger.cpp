// The ledger of ampere-hours, a step at a time.

#include "voltwright/simulation/ledger.hpp"
#include "testing.hpp"

using namespace voltwright;

namespace {

/// 15 A from the source, 10 A of them into the battery, which keeps 8 A beside 0.1 A that it loses by itself; at 13 V.
constexpr OperatingPoint charging{amperes(8), amperes(10), amperes(15), volts(13), milliohms(10)};

Ledger begun(const KineticState& state) {
    Ledger ledger{};
    ledger.at_start = ledger.now = state.available + state.bound;
    return ledger;
}

}  // namespace

TEST_CASE("a step is booked where it came from and where it went, and the ledger closes") {
    const KineticState before{ampere_hours(20), ampere_hours(30)}, after{ampere_hours(33), ampere_hours(33)};
    Connections connections{};
    connections.charger = amperes(15);
    Ledger ledger = begun(before);
    const StepCharges charges = book(ledger, connections, charging, amperes(0.1), hours(2), after);
    CHECK(charges.source == near(ampere_hours(30), ampere_hours(1e-9)));
    CHECK(charges.used == near(ampere_hours(10), ampere_hours(1e-9)));
    CHECK(charges.kept == near(ampere_hours(16), ampere_hours(1e-9)));
    CHECK(ledger.from_charger == near(ampere_hours(30), ampere_hours(1e-9)));
    CHECK(ledger.from_sun == Charge{});
    CHECK(ledger.gassed == near(ampere_hours(3.8), ampere_hours(1e-9)));
    CHECK(ledger.leaked == near(ampere_hours(0.2), ampere_hours(1e-9)));
    CHECK(ledger.open() == near(Charge{}, ampere_hours(1e-9)));
}

TEST_CASE("a ledger that was told of a battery other than the currents make does not close") {
    const KineticState before{ampere_hours(20), ampere_hours(30)}, after{ampere_hours(33), ampere_hours(34)};
    Connections connections{};
    connections.charger = amperes(15);
    Ledger ledger = begun(before);
    book(ledger, connections, charging, amperes(0.1), hours(2), after);
    CHECK(ledger.open() == near(ampere_hours(-1), ampere_hours(1e-9)));
}

// 130 W at 13 V are 10 A, as much as the charger could give: half of what came is the sun's.
TEST_CASE("charger and panel share what came by what each could give") {
    Connections connections{};
    connections.charger = amperes(10);
    connections.sun = watts(130);
    Ledger ledger = begun({});
    book(ledger, connections, charging, Current{}, hours(2), {ampere_hours(16), Charge{}});
    CHECK(ledger.from_sun == near(ampere_hours(15), ampere_hours(1e-9)));
    CHECK(ledger.from_charger == near(ampere_hours(15), ampere_hours(1e-9)));
    connections.charger = Current{};
    ledger = begun({});
    book(ledger, connections, charging, Current{}, hours(2), {ampere_hours(16), Charge{}});
    CHECK(ledger.from_sun == near(ampere_hours(30), ampere_hours(1e-9)));
}

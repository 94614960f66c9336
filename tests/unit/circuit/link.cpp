// What a closed link brings from an alternator to a battery: held against the voltage of a node by Millman's theorem,
//   V = (V_s/R + V_open/R_in − I_L)/(1/R + 1/R_in),
// which is written another way round than link_current().

#include "voltwright/circuit/link.hpp"

#include "testing.hpp"
#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;
using namespace voltwright::testing;

namespace {

Voltage by_millman(Voltage source, Resistance loop, Voltage open, Resistance inside, Current loads) {
    return (source / loop + open / inside - loads) / (1.0 / loop + 1.0 / inside);
}

constexpr LinkedBattery half_full{volts(12.2), milliohms(30), milliohms(8)};

}  // namespace

TEST_CASE("what flows through a link leaves the voltage of its node, by Millman's theorem") {
    for (const double loop : {2.0, 9.0, 25.0, 80.0})
        for (const double loads : {0.0, 4.0, 15.0}) {
            CAPTURE(loop);
            CAPTURE(loads);
            const LinkCurrent link = link_current(14.2_V, milliohms(loop), half_full, amperes(loads), {});
            if (!(link.current > amperes(loads))) continue;
            const Voltage node = by_millman(14.2_V, milliohms(loop), 12.2_V, 30_mOhm, amperes(loads));
            CHECK(link.terminals == near(node, 1e-9 * 1_V));
            CHECK(link.current == near((14.2_V - node) / milliohms(loop), 1e-9 * 1_A));
        }
}

TEST_CASE("where loads take more than the link brings the battery gives the rest, by what it sets against giving") {
    const LinkCurrent link = link_current(14.2_V, 20_mOhm, half_full, 150_A, {});
    const Voltage node = by_millman(14.2_V, 20_mOhm, 12.2_V, 8_mOhm, 150_A);
    CHECK(link.inside == 8_mOhm);
    CHECK(link.terminals == near(node, 1e-9 * 1_V));
    CHECK(link.current < 150_A);
}

TEST_CASE("nothing flows back into the alternator, and no more than it has to spare") {
    CHECK(link_current(12.0_V, 20_mOhm, half_full, 0_A, {}).current == 0_A);
    const LinkCurrent spared = link_current(14.2_V, 2_mOhm, half_full, 0_A, 25_A);
    CHECK(spared.current == 25_A);
    // 12.2 V + 25 A·30 mΩ at the battery, and 25 A·2 mΩ more where the link begins.
    CHECK(spared.terminals == near(12.95_V, 1e-9 * 1_V));
    CHECK(spared.source == near(13.0_V, 1e-9 * 1_V));
}

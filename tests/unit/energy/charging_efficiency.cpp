#include "testing.hpp"

#include "voltwright/energy/charging_efficiency.hpp"
#include "voltwright/units/literals.hpp"

namespace voltwright {

using namespace literals;

TEST_CASE("a full battery stores nothing, and the fuller and the faster the less") {
    CHECK(copetti_charge_efficiency(1.0, 1.0) == ratio(0.0));
    CHECK(copetti_charge_efficiency(1.2, 1.0) == ratio(0.0));
    for (const double rate : {0.0, 0.1, 1.0, 4.0}) {
        CAPTURE(rate);
        Ratio before = 1.0;
        for (int soc = 0; soc <= 100; ++soc) {
            const Ratio now = copetti_charge_efficiency(percent(soc), rate);
            CHECK(now <= before);
            CHECK(now >= 0.0);
            CHECK(copetti_charge_efficiency(percent(soc), rate + 0.5) <= now);
            before = now;
        }
    }
}

}  // namespace voltwright

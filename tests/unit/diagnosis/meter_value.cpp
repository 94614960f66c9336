#include "voltwright/diagnosis/meter_value.hpp"
#include "testing.hpp"

namespace voltwright {

TEST_CASE("volts and amperes that a meter shows are not added, compared or taken for each other") {
    const MeterValue drop = volts(-0.3), current = amperes(20);
    CHECK(drop.voltage() == volts(-0.3));
    CHECK(drop.size().voltage() == volts(0.3));
    CHECK((2.0 * current - current).current() == amperes(20));
    CHECK(current / MeterValue(amperes(5)) == 4.0);
    CHECK(drop < volts(0));
    CHECK_FALSE(drop.is_current());
    CHECK(current.of_same_unit(3.0).is_current());
    CHECK_THROWS_AS((void)drop.current(), std::logic_error);
    CHECK_THROWS_AS((void)current.voltage(), std::logic_error);
    CHECK_THROWS_AS((void)(drop + current), std::logic_error);
    CHECK_THROWS_AS((void)(drop < current), std::logic_error);
    CHECK_THROWS_AS((void)(drop / current), std::logic_error);
}

}  // namespace voltwright

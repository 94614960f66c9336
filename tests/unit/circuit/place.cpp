#include "testing.hpp"

#include "voltwright/circuit/place.hpp"

#include <stdexcept>

namespace voltwright {

TEST_CASE("a place is known by its name, and of batteries, charger, panel, regulator and inverter there is one each") {
    for (const PlaceKind kind : {PlaceKind::starter_battery, PlaceKind::house_battery, PlaceKind::charger,
                                 PlaceKind::panel, PlaceKind::regulator, PlaceKind::inverter}) {
        const Place place = the(kind);
        CAPTURE(place.name);
        CHECK(place_named(place.name).kind == kind);
        CHECK(place_named(place.name) == place);
    }
    CHECK(place_named("fuse box").kind == PlaceKind::junction);
    CHECK_FALSE(place_named("fuse box") == place_named("sub box"));
    CHECK_THROWS_AS(the(PlaceKind::junction), std::logic_error);
    CHECK_THROWS_AS(the(PlaceKind::consumer), std::logic_error);
}

TEST_CASE("runs begin at a battery, the charger, the panel or its regulator; two of these are batteries") {
    CHECK(is_source(the(PlaceKind::charger)));
    CHECK(is_source(the(PlaceKind::house_battery)));
    CHECK_FALSE(is_source(the(PlaceKind::inverter)));
    CHECK_FALSE(is_source(place_named("fuse box")));
    CHECK(is_battery(the(PlaceKind::starter_battery)));
    CHECK_FALSE(is_battery(the(PlaceKind::charger)));
}

}  // namespace voltwright

#include "voltwright/profile/sections/solar.hpp"

#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/word.hpp"
#include "voltwright/profile/sections/rows.hpp"

namespace voltwright {

using namespace rows;

namespace {

std::optional<Entry> towards_equator(const Profile& profile, const Tables&, std::size_t) {
    if (!profile.trip.latitude) return {};
    return text_entry(profile.trip.latitude->value < degrees(0.0) ? "0 deg" : "180 deg");
}

std::span<const Key> solar_rows() {
    static const Key rows[] = {
        key<&SolarKeys::panel>("panel", Required{R"("100 W")"}, {up_to(watts(5000.0))},
                               "rated power of the panels together"),
        key<&SolarKeys::tilt>("tilt", usual("0 deg"), {between(degrees(0.0), degrees(90.0))},
                              "tilt of the panel; 0 deg lies flat on the roof"),
        key<&SolarKeys::azimuth>("azimuth", ByRule{"towards the equator", &towards_equator},
                                 {between(degrees(-180.0), degrees(360.0))},
                                 "where a tilted panel looks, from north by east: east is 90 deg"),
        key<&SolarKeys::regulator>("regulator", usual("mppt"), {},
                                   "kind of the regulator: \"mppt\" finds the panel's best voltage, \"pwm\" does not"),
        key<&SolarKeys::shade>("shade", usual("0 %"), {share()}, "share of the sun lost to trees, racks and dust"),
    };
    return rows;
}

}  // namespace

SectionRow solar_section() {
    SectionRow row = optional_section<&Profile::solar>("solar", "a solar panel and its regulator", solar_rows());
    return row;
}

}  // namespace voltwright

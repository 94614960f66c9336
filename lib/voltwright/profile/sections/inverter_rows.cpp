#include "voltwright/profile/sections/inverter.hpp"

#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/sections/rows.hpp"

namespace voltwright {

using namespace rows;

namespace {

std::span<const Key> inverter_rows() {
    static const Key rows[] = {
        key<&InverterKeys::output>("output", Required{R"("300 W")"}, {up_to(watts(10000.0))},
                                   "rated power of the inverter"),
        key<&InverterKeys::efficiency>("efficiency", usual("88 %"), {efficiency()}, "power out over power in"),
        key<&InverterKeys::standby>("standby", Absent{"nothing is counted for it", R"("6 W")"},
                                    {between(watts(0.0), watts(200.0))},
                                    "power that it draws while on with nothing plugged in"),
    };
    return rows;
}

}  // namespace

SectionRow inverter_section() {
    SectionRow row =
        optional_section<&Profile::inverter>("inverter", "an inverter for mains appliances", inverter_rows());
    return row;
}

}  // namespace voltwright

#pragma once

#include "voltwright/energy/house_battery.hpp"
#include "voltwright/energy/internal_resistance_description.hpp"
#include "voltwright/energy/kinetic_battery_description.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<HouseBattery> {
    static constexpr Equation equation{};
    static constexpr auto result = &HouseBattery::capacity;
    static constexpr auto fields = std::tuple{
        field(&HouseBattery::chemistry, "", "chemistry"),
        field(&HouseBattery::capacity, "", "at the 20-hour rate, as worn as it is"),
        field(&HouseBattery::whole, "", "all that comes out very slowly"),
        field(&HouseBattery::kinetics, "", "two wells (Manwell and McGowan 1993), over the 20-hour capacity"),
        field(&HouseBattery::ten_hour_rate, "", "current that empties it in ten hours"),
        field(&HouseBattery::charge_efficiency, "", "share of a charge that it keeps, while it is not nearly full"),
        field(&HouseBattery::one_well, "", "takes all of its charge at any current"),
        field(&HouseBattery::charge_above, "", "takes no charge below"),
        field(&HouseBattery::charge_below, "", "takes no charge above"),
        field(&HouseBattery::self_discharge, "", "self-discharge"),
    };
};

}  // namespace voltwright

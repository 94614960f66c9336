#pragma once

#include "voltwright/energy/fridge_description.hpp"
#include "voltwright/energy/house_battery_description.hpp"
#include "voltwright/energy/sun_description.hpp"
#include "voltwright/provenance/formula.hpp"
#include "voltwright/simulation/charger_point.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<ChargerPoint> {
    static constexpr Equation equation{"Iout = η·Vin·Iin/Vabs", "definition of efficiency"};
    static constexpr auto result = &ChargerPoint::output;
    static constexpr auto fields = std::tuple{
        field(&ChargerPoint::efficiency, "η", "efficiency"),
        field(&ChargerPoint::absorption, "Vabs", "absorption voltage"),
        field(&ChargerPoint::source, "", "voltage at the starter battery with the engine running"),
        field(&ChargerPoint::unloaded, "", "voltage at the charger before it starts"),
        field(&ChargerPoint::loaded, "Vin", "voltage at the charger while it runs"),
        field(&ChargerPoint::input, "Iin", "current into the charger"),
        field(&ChargerPoint::input_on, "", "it starts at"),
        field(&ChargerPoint::input_off, "", "it stops below"),
        field(&ChargerPoint::link, "", "through a relay's link"),
        field(&ChargerPoint::asks, "", "current that it would take"),
        field(&ChargerPoint::output, "Iout", "current into the house battery's cable"),
    };
};

}  // namespace voltwright

#pragma once

#include "voltwright/energy/kinetic_battery.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<KineticParameters> {
    static constexpr Equation equation{};
    static constexpr auto result = &KineticParameters::whole;
    static constexpr auto fields = std::tuple{
        field(&KineticParameters::available, "c", "share of the well that loads draw on"),
        field(&KineticParameters::rate, "k", "of their difference that levels out in an hour"),
        field(&KineticParameters::whole, "", "both wells, over the 20-hour capacity"),
    };
};

}  // namespace voltwright

#pragma once

#include "voltwright/energy/kinetics.hpp"
#include "voltwright/reasons/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<Kinetics> {
    static constexpr Equation equation{};
    static constexpr auto result = &Kinetics::whole;
    static constexpr auto fields = std::tuple{
        field(&Kinetics::available, "c", "share of the well that loads draw on"),
        field(&Kinetics::rate, "k", "of their difference that levels out in an hour"),
        field(&Kinetics::whole, "", "both wells, over the 20-hour capacity"),
    };
};

}  // namespace voltwright

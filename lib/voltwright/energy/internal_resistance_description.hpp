#pragma once

#include "voltwright/energy/internal_resistance.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<InternalResistance> {
    static constexpr Equation equation{};
    static constexpr auto result = &InternalResistance::expected;
    static constexpr auto fields = std::tuple{
        field(&InternalResistance::low, "", "at least"),
        field(&InternalResistance::high, "", "at most"),
        field(&InternalResistance::expected, "Ri", "expected, the middle of the range"),
        field(&InternalResistance::assumed, "", "assumed"),
    };
};

}  // namespace voltwright

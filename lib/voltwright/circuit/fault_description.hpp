#pragma once

#include "voltwright/circuit/fault.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<FaultCurrent> {
    static constexpr Equation equation{"I = Voc/(Ri + Rloop)", "Ohm's law"};
    static constexpr auto result = &FaultCurrent::current;
    static constexpr auto fields = std::tuple{
        field(&FaultCurrent::open_circuit, "Voc", "open-circuit voltage"),
        field(&FaultCurrent::internal, "Ri", "internal resistance of the battery"),
        field(&FaultCurrent::loop, "Rloop", "all between the battery and the short"),
        field(&FaultCurrent::current, "I", "fault current"),
    };
};

}  // namespace voltwright

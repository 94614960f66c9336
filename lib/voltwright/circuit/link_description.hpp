#pragma once

#include "voltwright/circuit/link.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<LinkCurrent> {
    static constexpr Equation equation{"I = (Vs − Vopen + Rin·IL)/(R + Rin)", "Kirchhoff's laws"};
    static constexpr auto result = &LinkCurrent::current;
    static constexpr auto fields = std::tuple{
        field(&LinkCurrent::source, "Vs", "voltage where the link begins"),
        field(&LinkCurrent::open, "Vopen", "voltage of the battery without current"),
        field(&LinkCurrent::loop, "R", "loop of the link"),
        field(&LinkCurrent::inside, "Rin", "what the battery sets against it"),
        field(&LinkCurrent::loads, "IL", "loads on at the battery"),
        field(&LinkCurrent::spare, "", "what the alternator has to spare"),
        field(&LinkCurrent::current, "I", "current through the link"),
        field(&LinkCurrent::terminals, "V", "voltage at the battery's terminals"),
    };
};

}  // namespace voltwright

#pragma once

#include "voltwright/vehicle/elements.hpp"

#include <cstddef>

namespace voltwright {

/// An element with its resistance: as it should be, and how far it may be from that (one standard deviation).
struct CircuitElement {
    Element element;
    std::size_t branch;
    Resistance expected;
    Resistance deviation;

    [[nodiscard]] bool is_cable() const { return element.kind == Element::Kind::cable; }
};

}  // namespace voltwright

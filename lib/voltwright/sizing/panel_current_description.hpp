#pragma once

#include "voltwright/provenance/formula.hpp"
#include "voltwright/sizing/panel_current.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<PanelDesignCurrent> {
    static constexpr Equation equation{"I = b·Isc, and l·I of the table before any correction",
                                       "NEC 690.8(A) and (B): a bright sun, and one that lasts"};
    static constexpr auto result = &PanelDesignCurrent::most;
    static constexpr auto fields = std::tuple{
        field(&PanelDesignCurrent::short_circuit, "Isc", "short-circuit current of all strings together"),
        field(&PanelDesignCurrent::bright, "b", "for a sun brighter than that of the standard conditions"),
        field(&PanelDesignCurrent::most, "I", "greatest current"),
        field(&PanelDesignCurrent::lasting, "l", "for a current that lasts for hours"),
        field(&PanelDesignCurrent::table_least, "", "least ampacity before any correction"),
    };
};

}  // namespace voltwright

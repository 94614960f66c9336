#pragma once

#include "voltwright/provenance/formula.hpp"
#include "voltwright/sizing/fitting.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<TubeFill> {
    static constexpr Equation equation{"f = S/Sb", "NEC, chapter 9, table 1"};
    static constexpr auto result = &TubeFill::fill;
    static constexpr auto fields = std::tuple{
        field(&TubeFill::cables, "", "cables in the tube"), field(&TubeFill::taken, "S", "what they take"),
        field(&TubeFill::bore, "Sb", "bore of the tube"),   field(&TubeFill::fill, "f", "fill"),
        field(&TubeFill::most, "", "fill allowed"),
    };
};

template <>
struct Described<ShrinkWindow> {
    static constexpr Equation equation{"dlow = 1.1·D/r", "a maker's guide for heat-shrink tube: 10 % kept in hand"};
    static constexpr auto result = &ShrinkWindow::from;
    static constexpr auto fields = std::tuple{
        field(&ShrinkWindow::supplied, "D", "inner diameter as supplied"),
        field(&ShrinkWindow::ratio, "r", "shrink ratio"),
        field(&ShrinkWindow::recovered, "", "inner diameter when shrunk freely"),
        field(&ShrinkWindow::from, "dlow", "thinnest part"),
        field(&ShrinkWindow::to, "", "thickest part, with three quarters of the shrink used"),
        field(&ShrinkWindow::to_most, "", "thickest part, shrunk by a fifth"),
    };
};

template <>
struct Described<CableMass> {
    static constexpr Equation equation{"m = m'·S·k·L", "copper of 8.89 g/cm3, IEC 60028"};
    static constexpr auto result = &CableMass::mass;
    static constexpr auto fields = std::tuple{
        field(&CableMass::copper, "m'", "copper of each mm2"),
        field(&CableMass::area, "S", "area"),
        field(&CableMass::factor, "k", "whole cable over its copper"),
        field(&CableMass::length, "L", "length"),
        field(&CableMass::mass, "m", "mass"),
    };
};

}  // namespace voltwright

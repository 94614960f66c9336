#pragma once

#include "voltwright/circuit/fault_description.hpp"
#include "voltwright/energy/internal_resistance_description.hpp"
#include "voltwright/provenance/formula.hpp"
#include "voltwright/sizing/fuse.hpp"
#include "voltwright/sizing/part_rating_description.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<FuseWindow> {
    static constexpr Equation equation{"Imin = Idesign/(u·f), f = 1 − d·(Taround − 25 °C)",
                                       "common practice of 80 %; never above the conductor's ampacity"};
    static constexpr auto result = &FuseWindow::at_least;
    static constexpr auto fields = std::tuple{
        field(&FuseWindow::design, "Idesign", "design current"),
        field(&FuseWindow::use, "u", "share of its rating that a fuse may carry for long"),
        field(&FuseWindow::around, "Taround", "hottest surroundings of the fuse"),
        field(&FuseWindow::rerating_per_kelvin, "d", "re-rating"),
        field(&FuseWindow::rerating, "f", "what is left of its rating there"),
        field(&FuseWindow::at_least, "Imin", "at least"),
        field(&FuseWindow::ampacity, "", "ampacity of the thinnest conductor"),
        field(&FuseWindow::parts, "", "least rating of the parts behind it"),
        field(&FuseWindow::appliance, "", "largest fuse that the appliance allows"),
        field(&FuseWindow::at_most, "", "at most"),
        field(&FuseWindow::behind, "", "not below the fuse of a motor behind it"),
    };
};

template <>
struct Described<FaultAtFuse> {
    static constexpr Equation equation{};
    static constexpr auto result = &FaultAtFuse::expected;
    static constexpr auto fields = std::tuple{
        field(&FaultAtFuse::lead, "", "lead from the battery's post, cold"),
        field(&FaultAtFuse::fuse, "", "fuse link and holder, cold"),
        field(&FaultAtFuse::expected, "", "dead short just behind it"),
        field(&FaultAtFuse::highest, "", "the same at the least resistance of the battery"),
        field(&FaultAtFuse::highest_voltage, "", "the highest voltage there"),
        field(&FaultAtFuse::breaking_capacity, "", "breaking capacity of its family"),
        field(&FaultAtFuse::in_front, "", "what the fuses before it break"),
    };
};

template <>
struct Described<FuseFit> {
    static constexpr Equation equation{};
    static constexpr auto result = &FuseFit::rating;
    static constexpr auto fields = std::tuple{
        field(&FuseFit::at, "", "at"),
        field(&FuseFit::family, "", "family"),
        field(&FuseFit::standard, "", "standard"),
        field(&FuseFit::rating, "", "rating"),
        field(&FuseFit::window, "", "what its rating must be"),
        field(&FuseFit::fault, "", "short circuit"),
        field(&FuseFit::link, "", "resistance of the link, cold"),
        field(&FuseFit::holder, "", "resistance of the holder"),
        field(&FuseFit::in_line, "", "a holder in the cable"),
        field(&FuseFit::given, "", "given in the profile"),
        field(&FuseFit::have, "", "there already"),
        field(&FuseFit::in_window, "", "its rating is right"),
    };
};

}  // namespace voltwright

#pragma once

#include "voltwright/circuit/run_description.hpp"
#include "voltwright/planning/network_figures.hpp"
#include "voltwright/provenance/formula.hpp"
#include "voltwright/sizing/choice_description.hpp"

#include <string_view>
#include <tuple>

namespace voltwright {

template <>
struct Described<NetworkShare> {
    static constexpr Equation equation{};
    static constexpr auto result = &NetworkShare::current;
    static std::string_view name(const NetworkShare& share) { return share.name; }
    static constexpr auto fields = std::tuple{
        field(&NetworkShare::name, "", "load"),
        field(&NetworkShare::current, "", "draws"),
    };
};

template <>
struct Described<NetworkFigures> {
    static constexpr Equation equation{"U = I·R", "Ohm's law; the loads behind it added up by Kirchhoff's"};
    static constexpr auto result = &NetworkFigures::drop;
    static constexpr auto fields = std::tuple{
        field(&NetworkFigures::source, "", "normal voltage at the source"),
        field(&NetworkFigures::begins, "", "voltage where the run begins"),
        field(&NetworkFigures::shares, "", "loads behind it"),
        field(&NetworkFigures::resistance, "R", "loop resistance"),
        field(&NetworkFigures::current, "I", "current", "current_A"),
        field(&NetworkFigures::drop, "U", "volts lost", "drop_V"),
        field(&NetworkFigures::cable_drop, "", "of which in the cable", "cable_drop_V"),
        field(&NetworkFigures::joint_drop, "", "of which in joints and fuse"),
        field(&NetworkFigures::share, "", "share of 12 V", "drop_percent"),
        field(&NetworkFigures::far_end, "", "voltage at the far end", "far_end_V"),
        field(&NetworkFigures::way_drop, "", "lost from the source to the far end"),
        field(&NetworkFigures::heat, "", "heat in the run", "heat_W"),
        field(&NetworkFigures::temperature, "", "conductor temperature"),
        field(&NetworkFigures::at, "", "clock time", "figures_at"),
        field(&NetworkFigures::apart, "", "off when the rest asks for most", "figures_apart"),
    };
};

}  // namespace voltwright

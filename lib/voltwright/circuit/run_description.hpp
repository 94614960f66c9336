#pragma once

#include "voltwright/circuit/conductor_description.hpp"
#include "voltwright/circuit/run.hpp"
#include "voltwright/provenance/formula.hpp"

#include <string_view>
#include <tuple>

namespace voltwright {

template <>
struct Described<JointResistance> {
    static constexpr Equation equation{"Rtotal = n·R", "joints in series"};
    static constexpr auto result = &JointResistance::total;
    static std::string_view name(const JointResistance& joint) { return joint.name; }
    static constexpr auto fields = std::tuple{
        field(&JointResistance::name, "", "what it is"),
        field(&JointResistance::count, "n", "how many"),
        field(&JointResistance::each, "R", "each"),
        field(&JointResistance::total, "Rtotal", "together"),
    };
};

template <>
struct Described<RunResistance> {
    static constexpr Equation equation{"R = R'out·L + (R'back·L or Rbody) + Rjoints",
                                       "Ohm's law, resistances in series"};
    static constexpr auto result = &RunResistance::loop;
    static constexpr auto fields = std::tuple{
        field(&RunResistance::length, "L", "length, one way"),
        field(&RunResistance::out, "R'out", "conductor out"),
        field(&RunResistance::back, "R'back", "conductor back"),
        field(&RunResistance::body, "Rbody", "the body as return"),
        field(&RunResistance::joints, "", "joints"),
        field(&RunResistance::cable, "Rcable", "cable, out and back"),
        field(&RunResistance::all_joints, "Rjoints", "all joints"),
        field(&RunResistance::loop, "R", "loop resistance", "resistance_mohm"),
    };
};

}  // namespace voltwright

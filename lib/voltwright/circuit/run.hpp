#pragma once

#include "voltwright/circuit/conductor.hpp"
#include "voltwright/provenance/cited.hpp"

#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// Something other than cable in a run, with the resistance that it adds.
struct JointResistance {
    std::string name;
    int count;
    Cited<Resistance> each;
    Resistance total;
};

/// Resistance of a whole run, out and back.
///
///     R = R_cable + R_joints
///     R_cable = R'_out·L + R'_back·L     with a cable back
///     R_cable = R'_out·L + R_body        with the body as return
///
/// L        the way out; a cable back is as long
/// R_body   of the whole return, its tails included
///
/// The conductors' temperature is the one at which they settle, averaged along the way. Source: Ohm's law; the form
/// "cable plus a fixed resistance a joint" is that of control-network drop rules.
struct RunResistance {
    Length length;
    ConductorResistance out;
    std::optional<ConductorResistance> back;  ///< empty with a body return
    std::optional<Cited<Resistance>> body;
    std::vector<JointResistance> joints;
    Resistance cable;  ///< out and back, the body among it
    Resistance all_joints;
    Resistance loop;
};

/// Exactly one of `back` and `body` must be given.
RunResistance run_resistance(Length length, ConductorResistance out, std::optional<ConductorResistance> back,
                             std::optional<Cited<Resistance>> body, std::vector<JointResistance> joints);

/// The same run with its conductors at other temperatures. As many conductors as before.
void change_conductors(RunResistance& run, ConductorResistance out, std::optional<ConductorResistance> back);

}  // namespace voltwright

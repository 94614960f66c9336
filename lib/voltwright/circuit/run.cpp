#include "voltwright/circuit/run.hpp"

#include <stdexcept>
#include <utility>

namespace voltwright {

RunResistance run_resistance(Length length, ConductorResistance out, std::optional<ConductorResistance> back,
                             std::optional<Cited<Resistance>> body, std::vector<JointResistance> joints) {
    if (back.has_value() == body.has_value()) throw std::logic_error("a run comes back by a cable or by the body");
    const Resistance returning = back ? back->per_length * length : body->value;
    const Resistance cable = out.per_length * length + returning;
    Resistance all_joints{};
    for (const JointResistance& joint : joints) all_joints += joint.total;
    return {length, std::move(out), std::move(back),   std::move(body), std::move(joints),
            cable,  all_joints,     cable + all_joints};
}

}  // namespace voltwright

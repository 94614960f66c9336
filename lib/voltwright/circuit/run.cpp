#include "voltwright/circuit/run.hpp"

#include <stdexcept>
#include <utility>

namespace voltwright {

RunResistance run_resistance(Length length, ConductorResistance out, std::optional<ConductorResistance> back,
                             std::optional<Cited<Resistance>> body, std::vector<JointResistance> joints) {
    Resistance all_joints{};
    for (const JointResistance& joint : joints) all_joints += joint.total;
    RunResistance run{length, out, back, std::move(body), std::move(joints), {}, all_joints, {}};
    change_conductors(run, std::move(out), std::move(back));
    return run;
}

void change_conductors(RunResistance& run, ConductorResistance out, std::optional<ConductorResistance> back) {
    if (back.has_value() == run.body.has_value()) throw std::logic_error("a run comes back by a cable or by the body");
    const Resistance returning = back ? back->per_length * run.length : run.body->value;
    run.cable = out.per_length * run.length + returning;
    run.loop = run.cable + run.all_joints;
    run.out = std::move(out);
    run.back = std::move(back);
}

}  // namespace voltwright

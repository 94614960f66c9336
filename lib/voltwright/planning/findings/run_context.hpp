#pragma once

#include "voltwright/planning/findings/finding.hpp"
#include "voltwright/planning/run_plan.hpp"

#include <optional>

namespace voltwright {

/// A run with its cable and fuses, and all that its findings are made from.
struct RunContext {
    const RunPlan& run;
    const RunPlan* before;  ///< the run that it hangs on; nullptr for one that begins at a source
    const System& system;
    const Tables& tables;

    [[nodiscard]] const CableRun& way() const { return run.task.run; }
    [[nodiscard]] Current design() const { return run.choice.design.current; }
};

FindingSubject subject_of(const RunContext& of);

/// What is missing where this run brings nothing: without a source's power the trip is another one, a load's is missing with
/// the engine off too.
Concern concern_of_power(const RunContext& of);

/// Of the ampacities that the profile's rules go by.
Source ampacity_source(const RunContext& of);

NamedCable named_cable(const RunContext& of, Gauge size);
NamedFuse named_fuse(const FuseFit& fuse);
/// Without the place, for one that is to be bought.
NamedFuse named_fuse(Current rating, std::string_view family);

/// The thinner of the two conductors of a run: it is the one that a current or a short heats most.
struct JudgedConductor {
    Gauge size;
    Area area;
    bool is_return;
};
JudgedConductor judged_conductor(const RunContext& of, const Candidate& taken);
NamedCable named_cable(const RunContext& of, const JudgedConductor& conductor);

/// Whether the given way back is thinner than what is laid out: then no thicker cable out cures it.
bool thin_return(const RunContext& of);

/// The battery that feeds a short in this run, where nobody gave its resistance; nullptr where somebody did.
const InternalResistance* assumed_battery(const RunContext& of);

}  // namespace voltwright

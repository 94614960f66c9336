#include "voltwright/planning/findings/run_context.hpp"

#include "voltwright/planning/findings/sources.hpp"

namespace voltwright {

FindingSubject subject_of(const RunContext& of) { return {FindingSubject::Kind::run, {*of.way().name}}; }

Concern concern_of_power(const RunContext& of) {
    switch (of.run.task.role) {
        case RunRole::feed:
        case RunRole::output:
        case RunRole::panel:
        case RunRole::solar: return Concern::trip;
        default: return Concern::engine_off;
    }
}

Source ampacity_source(const RunContext& of) {
    const AmpacityBasisRow* basis = find_ampacity_basis(of.tables, of.system.rules.ampacity_basis);
    return basis ? basis->source : sources::drop_rules;
}

NamedCable named_cable(const RunContext& of, Gauge size) { return {size, of.way().insulation}; }

NamedFuse named_fuse(const FuseFit& fuse) { return {fuse.rating, fuse.family, fuse.at}; }
NamedFuse named_fuse(Current rating, std::string_view family) { return {rating, std::string(family), {}}; }

bool thin_return(const RunContext& of) {
    const Candidate* taken = of.run.to_lay();
    return taken && judged_conductor(of, *taken).is_return;
}

JudgedConductor judged_conductor(const RunContext& of, const Candidate& taken) {
    const auto& back = of.way().return_size;
    const auto conductor = back ? conductor_of(of.tables, *back) : std::nullopt;
    if (of.run.to_lay() && conductor && conductor->area < taken.area) return {*back, conductor->area, true};
    return {taken.size, taken.area, false};
}

NamedCable named_cable(const RunContext& of, const JudgedConductor& conductor) {
    return {conductor.size, of.way().insulation, conductor.is_return};
}

const InternalResistance* assumed_battery(const RunContext& of) {
    const auto& ends = of.way().fused_at;
    return !ends.empty() && ends.front().internal.assumed ? &ends.front().internal : nullptr;
}

}  // namespace voltwright

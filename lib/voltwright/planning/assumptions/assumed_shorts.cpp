#include "voltwright/planning/assumptions/assume.hpp"
#include "voltwright/planning/findings/sources.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// The worst of some shorts, and the runs where they may be.
struct Shorts {
    std::vector<std::string> names = {};
    std::optional<LastingShort> worst = {};  ///< nearest to its limit
    Duration longest{};

    void add(const std::string& run, const LastingShort& one) {
        if (std::find(names.begin(), names.end(), run) == names.end()) names.push_back(run);
        if (!worst || one.limit - one.reaches < worst->limit - worst->reaches) worst = one;
        longest = std::max(longest, one.time.value_or(Duration{}));
    }
};

/// Whether the electronics of the battery would make a difference: the cable gets hotter than with a current that lasts.
bool electronics_decide(const CableRun& run, const Protection& one) {
    return one.lasting->reaches > run.insulation &&
           std::any_of(run.fused_at.begin(), run.fused_at.end(),
                       [&](const FuseEnd& end) { return end.at == one.at && end.electronics; });
}

}  // namespace

void assume_shorts(const std::vector<RunPlan>& runs, Assumptions& assumed) {
    Shorts lasting, uncleared, opened;
    for (const RunPlan& run : runs) {
        const Candidate* taken = run.taken();
        if (!taken) continue;
        for (const Protection& one : taken->protection) {
            if (!one.lasting) continue;
            if (electronics_decide(run.task.run, one)) opened.add(*run.task.run.name, *one.lasting);
            if (run.to_lay() && one.lasts_safely())
                (one.lasting->time ? lasting : uncleared).add(*run.task.run.name, *one.lasting);
        }
    }
    if (lasting.worst)
        assumed.push_back({.code = AssumptionCode::lasting_short,
                           .about = {FindingSubject::Kind::run, lasting.names},
                           .found = lasting.longest,
                           .allowed = lasting.worst->limit,
                           .arguments = {{"reaches", lasting.worst->reaches}},
                           .source = sources::overload});
    if (uncleared.worst)
        assumed.push_back({.code = AssumptionCode::uncleared_short,
                           .about = {FindingSubject::Kind::run, uncleared.names},
                           .found = uncleared.worst->reaches,
                           .allowed = uncleared.worst->limit,
                           .source = sources::withstand});
    if (opened.worst)
        assumed.push_back({.code = AssumptionCode::battery_electronics,
                           .about = {FindingSubject::Kind::run, opened.names},
                           .source = sources::electronics});
}

}  // namespace voltwright

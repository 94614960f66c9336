#include "voltwright/planning/findings/find.hpp"
#include "voltwright/planning/findings/run_concerns.hpp"

#include <algorithm>
#include <string>
#include <string_view>

namespace voltwright {

namespace {

void find_in_size(const RunContext& of, const Candidate& taken, Findings& found) {
    find_failings(of, taken, found);
    for (const FuseFit& fuse : taken.fuses) {
        find_unfit_fuse(of, fuse, found);
        find_in_line_holder(of, fuse, found);
        find_blown_in_use(of, fuse, found);
        find_blown_on_start(of, fuse, found);
    }
    find_unknown_times(of, taken, found);
    find_assumed_battery(of, taken, found);
}

/// What a remedy exchanges is there no more, and has to be bought.
void take_from_what_is_there(const RunContext& of, Remedy& remedy) {
    const CableRun& way = of.way();
    if (of.run.task.main_fuse) {
        if (way.have_fuse && !remedy.changes.empty())
            remedy.changes.push_back({of.run.task.from.name + ".have_main_fuse", "false"});
        return;
    }
    const std::string path = "run." + *way.name + ".";
    const auto changes = [&](std::string_view key) {
        return std::any_of(remedy.changes.begin(), remedy.changes.end(),
                           [&](const Change& change) { return change.key == path + std::string(key); });
    };
    const bool cable = way.have_cable && !changes("size"), fuse = way.have_fuse && !changes("fuse");
    if (cable == way.have_cable && fuse == way.have_fuse) return;
    remedy.changes.push_back({path + "have", cable ? "cable" : fuse ? "fuse" : "nothing"});
}

}  // namespace

Findings find_in_run(const RunPlan& run, const RunPlan* before, const System& system, const Tables& tables) {
    Findings found;
    const RunContext of{run, before, system, tables};
    find_hot_surroundings(of, found);
    find_overloaded_parts(of, found);
    find_unrated_parts(of, found);
    find_hot_joints(of, found);
    find_body_return(of, found);
    find_trade_size(of, found);
    find_way_drop(of, found);
    if (const Candidate* taken = run.to_lay())
        find_in_size(of, *taken, found);
    else
        find_why_nothing_fits(of, found);
    find_bare_ends(of, found);
    find_fuses_elsewhere(of, found);
    for (Finding& one : found) take_from_what_is_there(of, one.remedy);
    return found;
}

}  // namespace voltwright

#include "voltwright/planning/findings/find.hpp"
#include "voltwright/planning/findings/run_concerns.hpp"

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
    return found;
}

}  // namespace voltwright

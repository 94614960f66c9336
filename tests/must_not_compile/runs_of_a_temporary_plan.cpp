// error: use of deleted function

#include "voltwright/planning/plan.hpp"

using namespace voltwright;

std::vector<LaidRun> laid(const System& system) {
#ifdef BROKEN
    return laid_runs(make_plan(system).runs);
#else
    static const Plan plan = make_plan(system);
    return laid_runs(plan.runs);
#endif
}

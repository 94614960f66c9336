// A trip over the cables of a plan that is dropped: the runs are told by value, or this does not compile.
#include <voltwright/voltwright.hpp>

using namespace voltwright;

Journey journey(const System& system) {
    return make_journey(system, laid_runs(make_plan(system).runs), built_in_tables());
}

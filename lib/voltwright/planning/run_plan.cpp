#include "voltwright/planning/run_plan.hpp"

#include <algorithm>

namespace voltwright {

const RunPlan* run_before(const std::vector<RunPlan>& runs, const RunTree& tree, std::size_t run) {
    return tree.before[run] ? &runs[*tree.before[run]] : nullptr;
}

bool is_on(const SystemRun& run, int minute) {
    return run.hours.empty() || std::any_of(run.hours.begin(), run.hours.end(),
                                            [minute](const ClockWindow& window) { return window.holds(minute); });
}

std::vector<int> minutes_of_change(const std::vector<const SystemRun*>& runs) {
    std::vector<int> minutes = {0};
    for (const SystemRun* run : runs)
        for (const ClockWindow& window : run->hours) minutes.push_back(window.from.minutes % (24 * 60));
    std::sort(minutes.begin(), minutes.end());
    minutes.erase(std::unique(minutes.begin(), minutes.end()), minutes.end());
    return minutes;
}

}  // namespace voltwright

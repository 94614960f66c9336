#include "voltwright/planning/dull_days.hpp"

#include <algorithm>
#include <vector>

namespace voltwright {

namespace {

constexpr int all_places_to = 28, places_of_more = 24;

/// The first days of the runs that are tried, in their order. In a long trip the season changes slowly: of the runs between,
/// those that end about the usual sun's lowest count.
std::vector<int> first_days(int days, int count, int lowest_on) {
    const int last = days - count + 1;
    const int step = days <= all_places_to ? 1 : std::max(last / places_of_more, 1);
    std::vector<int> all;
    for (int first = 1; first <= last; first += step) all.push_back(first);
    for (int first = lowest_on - count - 1; first <= lowest_on - count + 1; ++first)
        all.push_back(std::clamp(first, 1, last));
    all.push_back(last);
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
}

/// Whether the run has less sun in the other scenario.
bool darkens(const Scenario& usual, const Scenario& dull, DayRun run) {
    for (std::size_t i = 0; i < usual.intervals.size(); ++i)
        if (run.holds(usual.intervals[i].day) && dull.intervals[i].sun < usual.intervals[i].sun) return true;
    return false;
}

}  // namespace

DullDay first_dull_day(const ScenarioInputs& inputs, DayRun run) {
    int day = run.first;
    while (day < run.last() && inputs.day(day).sky.told) ++day;
    return dull_day(clearness_index_of(inputs.day(day).sky.usual), *inputs.tables);
}

void take_sun(Scenario& scenario, const Scenario& from, DayRun run) {
    for (std::size_t i = 0; i < scenario.intervals.size(); ++i)
        if (run.holds(scenario.intervals[i].day)) scenario.intervals[i].sun = from.intervals[i].sun;
}

std::optional<DayRun> hardest_run(Scenario usual, const Scenario& dull, int count, const TripResult& in_usual_sun) {
    const int days = static_cast<int>(in_usual_sun.days.size());
    count = std::min(count, days);
    if (count < 1) return {};
    const std::vector<Interval> as_usual = usual.intervals;
    std::optional<DayRun> hardest;
    std::optional<TripResult> at_hardest;
    for (const int first : first_days(days, count, in_usual_sun.lowest_at.day)) {
        const DayRun run{first, count};
        if (!darkens(usual, dull, run)) continue;
        take_sun(usual, dull, run);
        TripResult trip = simulate(usual, {.cut_off = CutOffSetting::high});
        usual.intervals = as_usual;
        if (worse(at_hardest ? *at_hardest : in_usual_sun, trip)) continue;
        hardest = run;
        at_hardest = std::move(trip);
    }
    return hardest;
}

}  // namespace voltwright

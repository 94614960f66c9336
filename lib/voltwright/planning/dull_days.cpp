#include "voltwright/planning/dull_days.hpp"

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <vector>

namespace voltwright {

namespace {

constexpr int all_places_to = 28, places_of_more = 24, lowest_days = 12;

/// The days on which the battery is lowest, the lowest first.
std::vector<int> lowest_of(const TripResult& trip) {
    std::vector<int> days(trip.days.size());
    std::iota(days.begin(), days.end(), 0);
    const auto many = std::min<std::size_t>(lowest_days, days.size());
    std::partial_sort(days.begin(), days.begin() + static_cast<std::ptrdiff_t>(many), days.end(), [&](int a, int b) {
        return trip.days[static_cast<std::size_t>(a)].lowest < trip.days[static_cast<std::size_t>(b)].lowest;
    });
    days.resize(many);
    for (int& day : days) ++day;
    return days;
}

/// The first days of the runs that are tried, in their order.
std::vector<int> first_days(int count, const TripResult& in_usual_sun) {
    const int days = static_cast<int>(in_usual_sun.days.size()), last = days - count + 1;
    const int step = days <= all_places_to ? 1 : std::max(last / places_of_more, 1);
    std::vector<int> all;
    for (int first = 1; first <= last; first += step) all.push_back(first);
    // The lowest comes in the morning after, or a little later.
    for (const int day : lowest_of(in_usual_sun))
        for (int first = day - count - 1; first <= day - count + 1; ++first) all.push_back(std::clamp(first, 1, last));
    all.push_back(last);
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
}

/// What the sun brings on each day.
std::vector<Energy> sun_by_day(const Scenario& scenario) {
    std::vector<Energy> days(static_cast<std::size_t>(scenario.intervals.back().day) + 1);
    for (const Interval& interval : scenario.intervals)
        days[static_cast<std::size_t>(interval.day)] += interval.sun * interval.length;
    return days;
}

}  // namespace

DullDay first_dull_day(const ScenarioInputs& inputs, DayRun run) {
    int day = run.first;
    while (day < run.last() && inputs.day(day).sky.told) ++day;
    return dull_day(clearness_index_of(inputs.day(day).sky.usual), *inputs.tables);
}

std::optional<DayRun> hardest_run(const ScenarioInputs& inputs, Clearness clearness, int count,
                                  const TripResult& in_usual_sun) {
    count = std::min(count, static_cast<int>(in_usual_sun.days.size()));
    if (count < 1) return {};
    const ScenarioInputs there = under_sky(inputs, {.clearness = clearness});
    const auto usual = sun_by_day(trip_scenario(there)),
               dull = sun_by_day(trip_scenario(under_sky(there, {.clearness = clearness, .dull = true})));
    std::optional<DayRun> hardest;
    std::optional<TripResult> at_hardest;
    for (const int first : first_days(count, in_usual_sun)) {
        const DayRun run{first, count};
        bool darker = false;
        for (int day = run.first; day <= run.last(); ++day)
            darker = darker || dull[static_cast<std::size_t>(day)] < usual[static_cast<std::size_t>(day)];
        if (!darker) continue;
        // Built anew: with less sun a battery's heater, too, runs at other times.
        TripResult trip = simulate(trip_scenario(under_sky(there, {.clearness = clearness, .dull = true}, run)),
                                   {.cut_off = CutOffSetting::high});
        if (at_hardest ? !worse(trip, *at_hardest) : worse(in_usual_sun, trip)) continue;
        hardest = run;
        at_hardest = std::move(trip);
    }
    return hardest;
}

}  // namespace voltwright

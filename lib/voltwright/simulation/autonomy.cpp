#include "voltwright/simulation/autonomy.hpp"

#include <algorithm>
#include <optional>

namespace voltwright {

namespace {

/// Until it ends, and in the day and the night after it, before which nobody charges it.
std::optional<NearFreezing> nearest_freezing(const Scenario& parked, const TripResult& trip) {
    std::optional<NearFreezing> nearest = trip.near_freezing;
    const auto freezes = freezes_at(parked.battery, trip.end);
    if (!freezes) return nearest;
    const Duration ends = parked.intervals.front().from + trip.lasted;
    for (const Interval& interval : parked.intervals) {
        if (interval.from + interval.length <= ends) continue;
        if (interval.from >= ends + hours(24)) break;
        if (!nearest || interval.battery - *freezes < nearest->battery - nearest->freezes)
            nearest =
                NearFreezing{interval.battery, *freezes, trip.end, moment(std::max<Duration>(interval.from, ends))};
    }
    return nearest;
}

}  // namespace

Autonomy autonomy(const Scenario& parked, Ratio from, CutOffSetting cut_off) {
    const TripResult trip = simulate(parked, {.stop_at_limit = true, .start_soc = from, .cut_off = cut_off});
    int cut_offs = 0;
    for (const ConsumerResult& consumer : trip.served) cut_offs += consumer.cut_offs;
    return {.from = trip.start,
            .day = parked.parked_on,
            .starts_at = parked.intervals.front().from,
            .lasts = trip.lasted,
            .ended_by = trip.ended_by,
            .ended_name = trip.ended_name,
            .end = trip.end,
            .limit = trip.deepest_allowed,
            .limit_at = trip.limit_at,
            .used = trip.ledger.used,
            .cut_offs = cut_offs,
            .near_freezing = nearest_freezing(parked, trip)};
}

}  // namespace voltwright

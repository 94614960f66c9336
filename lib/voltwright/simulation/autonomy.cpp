#include "voltwright/simulation/autonomy.hpp"

namespace voltwright {

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
            .near_freezing = trip.near_freezing};
}

}  // namespace voltwright

#include "voltwright/trip/autonomy.hpp"

namespace voltwright {

Autonomy autonomy(const Journey& standing, Ratio from, GuardSetting guard) {
    const Trip trip =
        march(standing, {.points = false, .stop_at_limit = true, .start_soc = from, .guard = guard, .until = {}});
    int cut_outs = 0;
    for (const Served& served : trip.served) cut_outs += served.cut_outs;
    return {.from = trip.start,
            .starts_at = standing.intervals.front().from,
            .lasts = trip.lasted,
            .ended_by = trip.ended_by,
            .ended_name = trip.ended_name,
            .end = trip.end,
            .limit = trip.deepest_allowed,
            .used = trip.ledger.used,
            .cut_outs = cut_outs};
}

}  // namespace voltwright

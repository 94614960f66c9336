#pragma once

#include "voltwright/simulation/simulate.hpp"

#include <string>

namespace voltwright {

/// How long the loads run from the house battery alone, and what ended it.
///
/// One day of the trip again and again, the hottest or the coldest, the fridge already cold, engine and panel off: until the depth limit is reached
/// (ampere-hours out of capacity times health times what the cold leaves), or the first essential appliance switches
/// itself off, or the battery gives no more.
struct Autonomy {
    Ratio from;  ///< state of charge
    ParkedDay day;
    Duration starts_at;  ///< clock
    Duration lasts;
    EndedBy ended_by;        ///< `trip`: it outlasted the days that were looked at
    std::string ended_name;  ///< the appliance that switched itself off
    Ratio end;
    Ratio limit;           ///< state of charge at the depth limit, which is higher in the cold
    Temperature limit_at;  ///< of the battery, then
    Charge used;
    int cut_offs;                                    ///< of all cut-offs, the essential ones' among them
    std::optional<NearFreezing> near_freezing = {};  ///< until then and in the day after; lead alone
};

/// Most batteries are through in a few days; only one that is not is followed to the end, and no further.
inline constexpr int usual_autonomy_days = 3, longest_autonomy_days = 30;

/// From a state of charge on. `parked` as parked_scenario() gives it.
Autonomy autonomy(const Scenario& parked, Ratio from, CutOffSetting cut_off);

}  // namespace voltwright

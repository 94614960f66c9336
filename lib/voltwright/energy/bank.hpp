#pragma once

#include "voltwright/units/quantities.hpp"

#include <optional>

namespace voltwright {

/// What a lead-acid bank has to do.
struct BankDuty {
    Charge a_day;                            ///< taken in a day
    Duration autonomy;                       ///< without any charging
    Ratio depth_limit;                       ///< deepest discharge at the end of the autonomy
    std::optional<Ratio> daily_depth_limit;  ///< deepest discharge in one day
    Ratio end_of_life;                       ///< the share of its capacity at which it is replaced: usually 80 %
    Ratio temperature;                       ///< cell size factor: 1 at 25 degC, more in the cold
    Ratio margin;                            ///< design margin, added: usually 10 to 15 %
};

/// The capacity that a lead-acid bank needs.
///
///     Q = max(D·A/m, D·A/e, D/d)·kt·(1 + g)
///
/// D   taken in a day           A    days of autonomy            m   depth limit
/// e   end of life              d    daily depth limit           g   design margin
/// kt  cell size factor for the temperature
///
/// The largest of the three, not their product: a bank that may only be half emptied holds an old battery's loss as
/// well. Source: IEEE Std 1013-2007, clauses 6 and 8; its headings read, the calculation from memory.
struct BankSize {
    BankDuty duty;
    Charge unadjusted;                      ///< D·A
    Charge for_depth, for_end_of_life;      ///< D·A/m and D·A/e
    std::optional<Charge> for_daily_depth;  ///< D/d, where a daily limit is given
    Charge needed;                          ///< the largest of them
    Ratio adjustment;                       ///< kt·(1 + g)
    Charge capacity;
};

BankSize bank_size(const BankDuty& duty);

/// The same by the worksheets that multiply everything, which is more cautious.
///
///     Q = D·A/m·(1/e)·kt·(1 + g)
///
/// Source: worksheets for stand-alone solar systems and for batteries of uninterruptible supplies.
Charge bank_size_by_product(const BankDuty& duty);

}  // namespace voltwright

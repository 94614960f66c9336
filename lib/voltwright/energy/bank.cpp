#include "voltwright/energy/bank.hpp"

#include <algorithm>

namespace voltwright {

namespace {

Charge over_the_autonomy(const BankDuty& duty) { return duty.a_day * (duty.autonomy / hours(24)); }

Ratio adjustment(const BankDuty& duty) { return duty.temperature * (1.0 + duty.margin); }

}  // namespace

BankSize bank_size(const BankDuty& duty) {
    const Charge unadjusted = over_the_autonomy(duty);
    BankSize size{.duty = duty,
                  .unadjusted = unadjusted,
                  .for_depth = unadjusted / duty.depth_limit,
                  .for_end_of_life = unadjusted / duty.end_of_life,
                  .for_daily_depth = {},
                  .needed = {},
                  .adjustment = adjustment(duty),
                  .capacity = {}};
    size.needed = std::max(size.for_depth, size.for_end_of_life);
    if (duty.daily_depth_limit) {
        size.for_daily_depth = duty.a_day / *duty.daily_depth_limit;
        size.needed = std::max(size.needed, *size.for_daily_depth);
    }
    size.capacity = size.needed * size.adjustment;
    return size;
}

Charge bank_size_by_product(const BankDuty& duty) {
    return over_the_autonomy(duty) / duty.depth_limit / duty.end_of_life * adjustment(duty);
}

}  // namespace voltwright

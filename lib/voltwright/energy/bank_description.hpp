#pragma once

#include "voltwright/energy/bank.hpp"
#include "voltwright/reasons/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<BankDuty> {
    static constexpr Equation equation{};
    static constexpr auto result = &BankDuty::a_day;
    static constexpr auto fields = std::tuple{
        field(&BankDuty::a_day, "", "taken in a day"),
        field(&BankDuty::autonomy, "", "without any charging"),
        field(&BankDuty::depth_limit, "", "deepest discharge"),
        field(&BankDuty::daily_depth_limit, "", "deepest discharge in a day"),
        field(&BankDuty::end_of_life, "", "replaced at this share of its capacity"),
        field(&BankDuty::temperature, "", "cell size factor for the temperature"),
        field(&BankDuty::margin, "", "design margin"),
    };
};

template <>
struct Described<BankSize> {
    static constexpr Equation equation{"Q = Qn·ka", "IEEE Std 1013-2007, clauses 6 and 8"};
    static constexpr auto result = &BankSize::capacity;
    static constexpr auto fields = std::tuple{
        field(&BankSize::duty, "", "taken in a day"),
        field(&BankSize::unadjusted, "", "taken during the autonomy"),
        field(&BankSize::for_depth, "", "so that it is not emptied too far"),
        field(&BankSize::for_end_of_life, "", "so that it still does it when old"),
        field(&BankSize::for_daily_depth, "", "so that no one day empties it too far"),
        field(&BankSize::needed, "Qn", "the largest of these"),
        field(&BankSize::adjustment, "ka", "for the temperature and with the margin"),
        field(&BankSize::capacity, "Q", "capacity needed"),
    };
};

}  // namespace voltwright

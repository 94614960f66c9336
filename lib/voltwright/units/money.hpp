#pragma once

#include <compare>
#include <cstdint>

namespace voltwright {

/// An exact amount of money, in ten-thousandths of its currency.
struct Money {
    std::int64_t ten_thousandths = 0;
    friend constexpr auto operator<=>(const Money&, const Money&) = default;
};

}  // namespace voltwright

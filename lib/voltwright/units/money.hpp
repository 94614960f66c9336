#pragma once

#include "voltwright/units/read.hpp"

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace voltwright {

/// An exact amount of money, in ten-thousandths of its currency.
struct Money {
    std::int64_t ten_thousandths = 0;
    friend constexpr auto operator<=>(const Money&, const Money&) = default;
};

/// Reads decimal text: "4.20", "1250". At most four digits after the point, a thousand million at most.
///
/// Errors: a comma, a sign, a currency or anything else beside the digits, more than four decimals, too much money.
Read<Money> parse_money(std::string_view text);

/// "4.20": with at least `decimals` digits after the point, and as many more as the amount has.
std::string show(Money amount, int decimals = 2);

// Sums and products are exact, and empty where they leave the 64 bits.

std::optional<Money> plus(Money a, Money b);
std::optional<Money> times(Money each, std::int64_t count);

/// So many parts of what costs `whole` when there are `of` of them, rounded half up to the currency's decimals. Neither
/// `parts` nor `whole` is negative, and `of` is one at least.
std::optional<Money> share_of(Money whole, std::int64_t parts, std::int64_t of, int decimals);

}  // namespace voltwright

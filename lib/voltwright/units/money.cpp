#include "voltwright/units/money.hpp"

#include "voltwright/units/scan.hpp"

#include <algorithm>

namespace voltwright {

namespace {

constexpr std::int64_t whole = 10000;
constexpr int places = 4;
/// Digits before the point: a thousand million fits with room for every sum of a list.
constexpr std::size_t most_digits = 10;

constexpr std::int64_t ten_to(int power) { return power <= 0 ? 1 : 10 * ten_to(power - 1); }

bool all_digits(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

std::int64_t number_of(std::string_view digits) {
    std::int64_t number = 0;
    for (const char c : digits) number = 10 * number + (c - '0');
    return number;
}

}  // namespace

Read<Money> parse_money(std::string_view text) {
    const std::string_view given = without_blanks_around(text);
    if (given.empty()) return Unreadable{"there is no amount", "write it such as \"4.20\"", 0};
    if (given.front() == '-') return Unreadable{"a price is not negative", "write it such as \"4.20\"", 0};
    const std::size_t comma = given.find(',');
    if (comma != std::string_view::npos)
        return Unreadable{"an amount has a point, not a comma", "write it such as \"4.20\"", comma};
    const std::size_t point = given.find('.');
    const std::string_view units = given.substr(0, point);
    const std::string_view decimals = point == std::string_view::npos ? "" : given.substr(point + 1);
    if (!all_digits(units) || (point != std::string_view::npos && !all_digits(decimals)))
        return Unreadable{"this is no amount of money", "digits alone, such as \"4.20\"; the currency stands apart", 0};
    if (decimals.size() > places)
        return Unreadable{"an amount has at most four digits after the point", "write it such as \"4.20\"", point + 1};
    const std::size_t first = std::min(units.find_first_not_of('0'), units.size());
    const Unreadable too_much{"this is more than a thousand million", {}, 0};
    if (units.size() - first > most_digits) return too_much;
    const Money money{number_of(units.substr(first)) * whole +
                      number_of(decimals) * ten_to(places - static_cast<int>(decimals.size()))};
    if (money > Money{1'000'000'000 * whole}) return too_much;
    return money;
}

std::string show(Money amount, int decimals) {
    const bool negative = amount.ten_thousandths < 0;
    // The least number of all has no positive twin.
    const std::uint64_t size = negative ? std::uint64_t{0} - static_cast<std::uint64_t>(amount.ten_thousandths)
                                        : static_cast<std::uint64_t>(amount.ten_thousandths);
    std::string digits = std::to_string(size % static_cast<std::uint64_t>(whole));
    digits.insert(0, static_cast<std::size_t>(places) - digits.size(), '0');
    while (!digits.empty() && digits.size() > static_cast<std::size_t>(std::max(decimals, 0)) && digits.back() == '0')
        digits.pop_back();
    return (negative ? "-" : "") + std::to_string(size / static_cast<std::uint64_t>(whole)) +
           (digits.empty() ? "" : "." + digits);
}

std::optional<Money> plus(Money a, Money b) {
    Money sum;
    if (__builtin_add_overflow(a.ten_thousandths, b.ten_thousandths, &sum.ten_thousandths)) return {};
    return sum;
}

std::optional<Money> times(Money each, std::int64_t count) {
    Money product;
    if (__builtin_mul_overflow(each.ten_thousandths, count, &product.ten_thousandths)) return {};
    return product;
}

std::optional<Money> share_of(Money whole_amount, std::int64_t parts, std::int64_t of, int decimals) {
    const std::int64_t step = ten_to(places - decimals);
    // whole·parts/(of·step) to the nearest, half up: (2·whole·parts + of·step)/(2·of·step), rounded down.
    std::int64_t twice = 0, divisor = 0, raised = 0, rounded = 0;
    if (__builtin_mul_overflow(whole_amount.ten_thousandths, parts, &twice) ||
        __builtin_mul_overflow(twice, 2, &twice) || __builtin_mul_overflow(of, step, &divisor) ||
        __builtin_add_overflow(twice, divisor, &raised) || __builtin_mul_overflow(divisor, 2, &divisor) ||
        __builtin_mul_overflow(raised / divisor, step, &rounded))
        return {};
    return Money{rounded};
}

}  // namespace voltwright

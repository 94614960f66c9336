#include "voltwright/units/scan.hpp"

#include "voltwright/units/characters.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <iterator>
#include <system_error>

namespace voltwright {

namespace {

constexpr std::string_view minus_sign = "\u2212";

/// Beside what can nowhere be seen: what a message may not show, since it changes or has no letter of its own.
bool can_be_shown(char32_t code) {
    struct Range {
        char32_t first, last;
    };
    constexpr Range unfit[] = {{0x180e, 0x180e}, {0xfe00, 0xfe0f},   {0xfff0, 0xfffb},
                               {0xfffe, 0xffff}, {0xe0080, 0xe0fff}, {0xf0000, 0x10ffff}};
    return !cannot_be_seen(code) && std::none_of(std::begin(unfit), std::end(unfit), [&](const Range& range) {
        return code >= range.first && code <= range.last;
    });
}

std::size_t digits_at(std::string_view text, std::size_t at) {
    std::size_t count = 0;
    while (at + count < text.size() && is_digit(text[at + count])) ++count;
    return count;
}

}  // namespace

std::size_t blanks_at(std::string_view text, std::size_t at) {
    const auto one_blank = [&](std::size_t i) -> std::size_t {
        if (i >= text.size()) return 0;
        const char c = text[i];
        if (c == ' ' || c == '\t' || c == '\n' || c == '\r') return 1;
        if (c != '\xc2' && c != '\xe2') return 0;
        for (const std::string_view wide : {"\u00a0", "\u2009", "\u202f"})
            if (text.substr(i, wide.size()) == wide) return wide.size();
        return 0;
    };
    std::size_t end = at;
    while (const std::size_t length = one_blank(end)) end += length;
    return end - at;
}

std::string in_lower_case(std::string_view text) {
    std::string result(text);
    for (char& c : result) c = in_lower_case(c);
    return result;
}

std::string_view without_spaces_around(std::string_view text) {
    while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
    return text;
}

std::string_view without_blanks_around(std::string_view text) {
    text.remove_prefix(blanks_at(text, 0));
    for (std::size_t at = 0, end = 0; at < text.size();) {
        const std::size_t blanks = blanks_at(text, at);
        at += blanks > 0 ? blanks : 1;
        if (blanks == 0) end = at;
        if (at >= text.size()) return text.substr(0, end);
    }
    return text;
}

bool same_word(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](char x, char y) { return in_lower_case(x) == in_lower_case(y); });
}

LeadingNumber leading_number(std::string_view text) {
    using Kind = LeadingNumber::Kind;
    std::size_t at = 0;
    bool negative = false;
    if (text.substr(0, minus_sign.size()) == minus_sign) {
        negative = true;
        at = minus_sign.size();
    } else if (!text.empty() && (text[0] == '-' || text[0] == '+')) {
        negative = text[0] == '-';
        at = 1;
    }
    // from_chars would also take "inf", "nan" and a second minus.
    const std::size_t whole = digits_at(text, at);
    const bool point = at + whole < text.size() && text[at + whole] == '.';
    if (whole == 0 && !(point && digits_at(text, at + 1) > 0)) return {};
    if (!point && at + whole < text.size() && text[at + whole] == ',') {
        const std::size_t behind = digits_at(text, at + whole + 1);
        if (behind > 0) return {Kind::decimal_comma, 0.0, at + whole + 1 + behind};
    }
    double value = 0.0;
    const auto [stop, error] = std::from_chars(text.data() + at, text.data() + text.size(), value);
    const auto length = static_cast<std::size_t>(stop - text.data());
    if (error != std::errc{} || !std::isfinite(value)) return {Kind::out_of_range, 0.0, length};
    // No "-0" travels.
    return {Kind::number, (negative ? -value : value) + 0.0, length};
}

std::optional<SpreadSign> find_spread_sign(std::string_view text) {
    std::optional<SpreadSign> first;
    for (const std::string_view sign : {"\u00b1", "+-", "+/-", "+\u2212"}) {
        const std::size_t at = text.find(sign);
        if (at != std::string_view::npos && (!first || at < first->at)) first = {at, sign.size()};
    }
    return first;
}

std::string seen(std::string_view text) {
    constexpr int most_characters = 40;
    std::string safe;
    int count = 0;
    for (std::size_t at = 0; at < text.size();) {
        if (++count > most_characters) return safe + "...";
        const Character character = character_at(text, at);
        if (character.bytes > 0 && can_be_shown(character.code))
            safe += text.substr(at, character.bytes);
        else
            safe += '?';
        at += std::max<std::size_t>(character.bytes, 1);
    }
    return safe;
}

std::string in_quotes(std::string_view text) { return "\"" + std::string(text) + "\""; }

std::string shortest_digits(double x) {
    std::array<char, 32> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), x).ptr;
    return {digits.data(), end};
}

std::string quoted_for_message(std::string_view text) { return "'" + seen(text) + "'"; }

}  // namespace voltwright

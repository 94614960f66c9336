#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace voltwright {

/// The letters of what people type, for parse.cpp and gauge.cpp. Everything here takes any bytes at all.

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }
constexpr bool is_space(char c) { return c == ' ' || c == '\t'; }
constexpr char in_lower_case(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// The text with its ASCII letters small.
std::string in_lower_case(std::string_view text);

/// The longest text that is taken for a quantity or a size, in bytes.
inline constexpr std::size_t longest_text = 200;

/// How many bytes of blanks stand at `at`; a no-break space (U+00A0, U+202F) and a thin one (U+2009) are blanks too.
std::size_t blanks_at(std::string_view text, std::size_t at);

std::string_view without_blanks_around(std::string_view text);

/// Less: spaces and tabs only.
std::string_view without_spaces_around(std::string_view text);

/// Whether two texts are the same but for the case of ASCII letters.
bool same_word(std::string_view a, std::string_view b);

/// A number in front of a text: "6.5", "-5", "−5" (U+2212), ".5", "1e3".
struct LeadingNumber {
    enum class Kind { number, none, decimal_comma, out_of_range };
    Kind kind = Kind::none;
    double value = 0.0;
    /// Of the whole number in the text; with a decimal comma to the end of the digits behind it.
    std::size_t length = 0;
};
LeadingNumber leading_number(std::string_view text);

/// The sign between a value and its half width: "±", "+-", "+/-".
struct SpreadSign {
    std::size_t at, length;
};
std::optional<SpreadSign> find_spread_sign(std::string_view text);

/// `text` in single quotes for a message: 40 characters at most, and a ? for whatever cannot be seen.
std::string quoted_for_message(std::string_view text);

/// The same without the quotes.
std::string seen(std::string_view text);

/// A text in double quotes, as a profile has it.
std::string in_quotes(std::string_view text);

/// The fewest digits that read back as the same number.
std::string shortest_digits(double x);

}  // namespace voltwright

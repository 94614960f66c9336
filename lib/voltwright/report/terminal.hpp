#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace voltwright {

/// What a page may use. The same page is written to a terminal and to a pipe, colour aside.
struct Style {
    bool colour = false;
    bool unicode = true;
    int width = 80;
};

std::string bold(std::string_view text, const Style& style);
std::string dim(std::string_view text, const Style& style);
std::string red(std::string_view text, const Style& style);
std::string yellow(std::string_view text, const Style& style);

/// Columns that a character takes on a terminal: 0 for a combining mark, 2 for a wide one.
std::size_t columns_of(char32_t code);
/// The same for a text, escape sequences of the functions above left out.
std::size_t columns_of(std::string_view text);

/// Text of somebody else's, safe to print: control characters, marks that turn the direction of writing or cannot be
/// seen, and what is no UTF-8 become `?`, and so does all that is not ASCII when the style has no Unicode. Tabs stay.
std::string printable(std::string_view text, const Style& style);

/// The same words for a page without Unicode: `+-`, `deg`, `Ohm`, `u`, `2` for ±, °, Ω, µ, ². What `parse` reads as ± and
/// °C it reads as these too. Unchanged when the style has Unicode.
std::string spelled(std::string_view text, const Style& style);

/// Breaks a text at its blanks so that each line fits the style's width: `first` stands before the first line, the
/// blanks of `hanging` before all others. A word that fits nowhere stands alone, uncut. Ends with a line end; line ends
/// within the text are kept.
std::string wrap(std::string_view text, const Style& style, std::string_view first = {}, std::size_t hanging = 0);

/// A line of its own: as it is where it fits the style's width, broken like any text where it does not.
std::string headline(std::string_view text, const Style& style);

/// A heading with an empty line before it.
std::string heading(std::string_view words, const Style& style);

/// "  from a full battery            about 42 h, then half is used": a label, and what is said beside it in a column of its
/// own.
std::string labelled(std::string_view label, std::string_view words, const Style& style);

/// The text with blanks after it, or before it, until it fills `columns`.
std::string padded(std::string_view text, std::size_t columns);
std::string padded_left(std::string_view text, std::size_t columns);

}  // namespace voltwright

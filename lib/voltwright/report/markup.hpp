#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// Text of somebody else's, and of ours, on its way into a page of HTML or a drawing.
namespace voltwright {

/// Safe within an element and within a quoted attribute. Control characters, marks that turn the direction of writing, and
/// what is no UTF-8 become the replacement sign; line ends and tabs become blanks.
std::string escaped(std::string_view text);

/// Figures with the signs that a page may use, `31 °C`, `4.6 mΩ`, `16 mm²`, and no line end between figure and unit.
std::string in_signs(std::string_view text);

/// The first characters of a text, with an ellipsis where it was longer.
std::string cut(std::string_view text, std::size_t characters);

/// How wide a text is at most in the usual sans-serif faces, in units of its size.
double ems_of(std::string_view text, bool bold = false);

/// A text in lines that are no wider than `ems`, broken at its blanks or, where a word is too long, within it. What does
/// not fit into `most` lines ends in an ellipsis.
std::vector<std::string> in_lines(std::string_view text, double ems, std::size_t most, bool bold = false);

}  // namespace voltwright

#pragma once

#include <cstddef>
#include <string_view>

namespace voltwright {

/// A line of a text by its number, from 1, without its end; empty when there is none.
inline std::string_view line_of(std::string_view text, int number) {
    for (int line = 1; line < number; ++line) {
        const std::size_t end = text.find('\n');
        if (end == std::string_view::npos) return {};
        text.remove_prefix(end + 1);
    }
    text = text.substr(0, text.find('\n'));
    if (!text.empty() && text.back() == '\r') text.remove_suffix(1);
    return number < 1 ? std::string_view() : text;
}

}  // namespace voltwright

#include "voltwright/report/toml_text.hpp"

#include "voltwright/units/characters.hpp"
#include "voltwright/report/terminal.hpp"

#include <algorithm>
#include <vector>

namespace voltwright {

namespace {

/// The next place from `at` on of a comma that parts the elements of a list, or the list's end.
std::size_t comma_from(std::string_view list, std::size_t at) {
    int depth = 0;
    bool quoted = false;
    for (; at < list.size(); ++at) {
        const char c = list[at];
        if (quoted && c == '\\') {
            ++at;
            continue;
        }
        if (c == '"') quoted = !quoted;
        if (quoted) continue;
        if (c == '[' || c == '{') ++depth;
        if (c == ']' || c == '}') --depth;
        if (c == ',' && depth == 0) return at;
    }
    return list.size();
}

/// The elements of a written list, without its brackets.
std::vector<std::string_view> elements_of(std::string_view list) {
    list = list.substr(1, list.size() - 2);
    std::vector<std::string_view> elements;
    for (std::size_t begin = 0; begin <= list.size();) {
        const std::size_t end = comma_from(list, begin);
        std::string_view element = list.substr(begin, end - begin);
        element.remove_prefix(std::min(element.find_first_not_of(' '), element.size()));
        if (!element.empty()) elements.push_back(element);
        begin = end + 1;
    }
    return elements;
}

/// `\u00B0`: a character as TOML's escape.
std::string escape_of(char32_t code) {
    constexpr std::string_view digits = "0123456789ABCDEF";
    const bool high = code > 0xffff;
    std::string escape = high ? "\\U" : "\\u";
    for (int shift = high ? 28 : 12; shift >= 0; shift -= 4) escape += digits[code >> shift & 0xf];
    return escape;
}

}  // namespace

std::string in_short_lines(const std::string& value, std::size_t columns) {
    if (columns_of(value) <= columns || value.size() < 2 || value.front() != '[' || value.back() != ']') return value;
    std::string result = "[\n";
    for (const std::string_view element : elements_of(value)) result.append("    ").append(element).append(",\n");
    return result + "]";
}

std::string toml_in_ascii(std::string_view toml) {
    std::string result;
    result.reserve(toml.size());
    for (std::size_t at = 0; at < toml.size();) {
        const Character next = character_at(toml, at);
        if (next.code < 0x80)
            result += toml[at];
        else
            result += escape_of(next.code);
        at += std::max<std::size_t>(next.bytes, 1);
    }
    return result;
}

}  // namespace voltwright

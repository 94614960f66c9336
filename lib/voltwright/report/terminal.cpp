#include "voltwright/report/terminal.hpp"

#include "voltwright/units/characters.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace voltwright {

namespace {

struct Block {
    char32_t first, last;
};

// Unicode's blocks of combining marks, joiners and variation selectors.
constexpr std::array<Block, 8> combining = {{{0x0300, 0x036f},
                                             {0x0483, 0x0489},
                                             {0x0591, 0x05bd},
                                             {0x064b, 0x065f},
                                             {0x200b, 0x200d},
                                             {0x20d0, 0x20ff},
                                             {0xfe00, 0xfe0f},
                                             {0xe0100, 0xe01ef}}};
// Unicode's East Asian Width, the blocks that are wide or full width.
constexpr std::array<Block, 12> wide = {{{0x1100, 0x115f},
                                         {0x2e80, 0x303e},
                                         {0x3041, 0x33ff},
                                         {0x3400, 0x4dbf},
                                         {0x4e00, 0x9fff},
                                         {0xa000, 0xa4cf},
                                         {0xac00, 0xd7a3},
                                         {0xf900, 0xfaff},
                                         {0xfe30, 0xfe6f},
                                         {0xff00, 0xff60},
                                         {0x1f300, 0x1f9ff},
                                         {0x20000, 0x3fffd}}};

template <std::size_t N>
bool stands_in(char32_t code, const std::array<Block, N>& blocks) {
    return std::any_of(blocks.begin(), blocks.end(), [&](Block b) { return code >= b.first && code <= b.last; });
}

/// Joiners stay, for the scripts that need them.
bool steers_the_terminal(char32_t code) { return cannot_be_seen(code) && code != '\t' && !is_joiner(code); }

/// Nothing but visible ASCII and blanks: a column a byte.
bool is_plain(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; });
}

std::string painted(std::string_view text, std::string_view code, const Style& style) {
    if (!style.colour || text.empty()) return std::string(text);
    std::string result = "\x1b[";
    result.append(code).append("m").append(text).append("\x1b[0m");
    return result;
}

}  // namespace

std::string bold(std::string_view text, const Style& style) { return painted(text, "1", style); }
std::string dim(std::string_view text, const Style& style) { return painted(text, "2", style); }
std::string red(std::string_view text, const Style& style) { return painted(text, "1;31", style); }
std::string yellow(std::string_view text, const Style& style) { return painted(text, "33", style); }

std::size_t columns_of(char32_t code) {
    if (code < 0x300) return 1;
    if (stands_in(code, combining)) return 0;
    return stands_in(code, wide) ? 2 : 1;
}

std::size_t columns_of(std::string_view text) {
    if (is_plain(text)) return text.size();
    std::size_t columns = 0;
    for (std::size_t at = 0; at < text.size();) {
        if (text.substr(at, 2) == "\x1b[") {
            at = std::min(text.find('m', at), text.size() - 1) + 1;
            continue;
        }
        const Character next = character_at(text, at);
        columns += next.bytes == 0 ? 1 : columns_of(next.code);
        at += std::max<std::size_t>(next.bytes, 1);
    }
    return columns;
}

std::string printable(std::string_view text, const Style& style) {
    if (is_plain(text)) return std::string(text);
    std::string result;
    result.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const Character next = character_at(text, at);
        const std::size_t bytes = std::max<std::size_t>(next.bytes, 1);
        const bool unfit = next.bytes == 0 || steers_the_terminal(next.code) || (next.code > 0x7e && !style.unicode);
        if (unfit)
            result += '?';
        else
            result.append(text.substr(at, bytes));
        at += bytes;
    }
    return result;
}

std::string spelled(std::string_view text, const Style& style) {
    if (style.unicode || is_plain(text)) return std::string(text);
    constexpr std::array<std::pair<std::string_view, std::string_view>, 13> words = {{{"±", "+-"},
                                                                                      {"°", "deg"},
                                                                                      {"Ω", "Ohm"},  // Greek
                                                                                      {"\u2126", "Ohm"},
                                                                                      {"µ", "u"},
                                                                                      {"\u03bc", "u"},
                                                                                      {"²", "2"},
                                                                                      {"³", "3"},
                                                                                      {"·", "*"},
                                                                                      {"×", "x"},
                                                                                      {"−", "-"},
                                                                                      {"–", "-"},
                                                                                      {"…", "..."}}};
    std::string result;
    while (!text.empty()) {
        const auto found = std::find_if(words.begin(), words.end(), [&](const auto& word) {
            return text.substr(0, word.first.size()) == word.first;
        });
        const std::size_t bytes = found == words.end() ? 1 : found->first.size();
        result.append(found == words.end() ? text.substr(0, 1) : found->second);
        text.remove_prefix(bytes);
    }
    return result;
}

std::string wrap(std::string_view text, const Style& style, std::string_view first, std::size_t hanging) {
    const auto width = static_cast<std::size_t>(std::max(style.width, 1));
    std::string result(first);
    std::size_t column = columns_of(first);
    bool begun = false;  // whether a word stands on this line
    const auto new_line = [&] {
        result += '\n';
        result.append(hanging, ' ');
        column = hanging;
        begun = false;
    };
    for (std::size_t at = 0; at < text.size();) {
        if (text[at] == '\n') {
            new_line();
            ++at;
            continue;
        }
        if (text[at] == ' ') {
            ++at;
            continue;
        }
        const std::size_t end = std::min(text.find_first_of(" \n", at), text.size());
        const std::string_view word = text.substr(at, end - at);
        const std::size_t columns = columns_of(word);
        if (begun && column + 1 + columns > width) new_line();
        if (begun) {
            result += ' ';
            ++column;
        }
        result.append(word);
        column += columns;
        begun = true;
        at = end;
    }
    while (!result.empty() && result.back() == ' ') result.pop_back();
    result += '\n';
    return result;
}

std::string headline(std::string_view text, const Style& style) {
    const bool fits = columns_of(text) <= static_cast<std::size_t>(std::max(style.width, 1));
    return fits ? std::string(text) + "\n" : wrap(text, style);
}

std::string heading(std::string_view words, const Style& style) { return "\n" + bold(words, style) + "\n"; }

std::string labelled(std::string_view label, std::string_view words, const Style& style) {
    constexpr std::size_t column = 33;
    const std::string first = padded("  " + std::string(label), column) + "  ";
    return wrap(printable(spelled(words, style), style), style, printable(first, style), column + 2);
}

std::string padded(std::string_view text, std::size_t columns) {
    const std::size_t taken = columns_of(text);
    return std::string(text) + std::string(columns > taken ? columns - taken : 0, ' ');
}

std::string padded_left(std::string_view text, std::size_t columns) {
    const std::size_t taken = columns_of(text);
    return std::string(columns > taken ? columns - taken : 0, ' ') + std::string(text);
}

}  // namespace voltwright

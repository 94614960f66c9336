#pragma once

#include <cstddef>
#include <string_view>

namespace voltwright {

/// One character of a UTF-8 text. Columns are counted in these, not in bytes.
struct Character {
    char32_t code = 0;
    std::size_t bytes = 0;  ///< 0 where the text is no UTF-8 (cut short, overlong, a surrogate, beyond U+10FFFF)
};

/// The character that begins at byte `at`, which lies within the text.
constexpr Character character_at(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[at + i]); };
    const unsigned first = byte(0);
    if (first < 0x80) return {first, 1};
    const std::size_t bytes = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : 2;
    if (first < 0xc2 || first > 0xf4 || text.size() - at < bytes) return {};
    char32_t code = first & (0x7fu >> bytes);
    for (std::size_t i = 1; i < bytes; ++i) {
        if ((byte(i) & 0xc0u) != 0x80u) return {};
        code = (code << 6) | (byte(i) & 0x3fu);
    }
    const bool overlong = (bytes == 3 && code < 0x800) || (bytes == 4 && code < 0x10000);
    const bool surrogate = code >= 0xd800 && code <= 0xdfff;
    if (overlong || surrogate || code > 0x10ffff) return {};
    return {code, bytes};
}

/// The first byte that is no UTF-8, or the text's size when all of it is.
constexpr std::size_t first_that_is_not_utf8(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size()) {
        const Character next = character_at(text, at);
        if (next.bytes == 0) break;
        at += next.bytes;
    }
    return at;
}

/// Controls, and the marks that turn the direction of writing, break a line or hide: they would let a file rewrite the page
/// around it, or say one thing and show another. The two joiners are among them, which some scripts need.
constexpr bool cannot_be_seen(char32_t code) {
    return code < 0x20 || (code >= 0x7f && code <= 0x9f) || code == 0xad || code == 0x61c ||
           (code >= 0x200b && code <= 0x200f) || (code >= 0x2028 && code <= 0x202e) ||
           (code >= 0x2060 && code <= 0x206f) || code == 0xfeff || (code >= 0xe0000 && code <= 0xe007f);
}
/// Zero width joiner and non-joiner.
constexpr bool is_joiner(char32_t code) { return code == 0x200c || code == 0x200d; }

/// How many characters a UTF-8 text has.
constexpr std::size_t characters_in(std::string_view text) {
    std::size_t count = 0;
    for (const char c : text)
        if ((static_cast<unsigned char>(c) & 0xc0u) != 0x80u) ++count;
    return count;
}

}  // namespace voltwright

#include "voltwright/report/diagnostics.hpp"

#include "voltwright/units/characters.hpp"

#include <algorithm>
#include <vector>

namespace voltwright {

namespace {

constexpr std::size_t longest_shown = 200;

/// A line cut to what can be read, and where its marked part then stands, in characters from 0.
struct ShownLine {
    std::u32string line;
    std::size_t mark, length;
};

ShownLine around_the_mark(std::string_view line, const TextPlace& place, const Style& style) {
    std::u32string all;
    const std::string text = printable(line, style);
    for (std::size_t at = 0; at < text.size();) {
        const Character next = character_at(text, at);
        all += next.code;
        at += next.bytes;
    }
    const auto from = [](int count) { return static_cast<std::size_t>(std::max(count, 0)); };
    // An error at the end of a line stands one behind its last character.
    const std::size_t mark = std::min(from(place.column - 1), all.size());
    const std::size_t length =
        std::clamp<std::size_t>(from(place.length), 1, std::max<std::size_t>(all.size() - mark, 1));
    if (all.size() <= longest_shown) return {all, mark, length};

    const std::size_t begin =
        std::min(mark > longest_shown / 3 ? mark - longest_shown / 3 : 0, all.size() - longest_shown);
    std::u32string cut = all.substr(begin, longest_shown);
    std::size_t at = mark - begin;
    if (begin > 0) {
        cut = U"... " + cut;
        at += 4;
    }
    const std::size_t last = cut.size();
    if (begin + longest_shown < all.size()) cut += U" ...";
    return {cut, at, std::min(length, std::max<std::size_t>(last - std::min(at, last), 1))};
}

void append(std::string& text, char32_t code) {
    const auto byte = [](char32_t bits) { return static_cast<char>(static_cast<unsigned char>(bits)); };
    if (code < 0x80) {
        text += byte(code);
        return;
    }
    if (code < 0x800) {
        text += byte(0xc0 | (code >> 6));
    } else {
        if (code < 0x10000) {
            text += byte(0xe0 | (code >> 12));
        } else {
            text += byte(0xf0 | (code >> 18));
            text += byte(0x80 | ((code >> 12) & 0x3f));
        }
        text += byte(0x80 | ((code >> 6) & 0x3f));
    }
    text += byte(0x80 | (code & 0x3f));
}

}  // namespace

std::string show(const Diagnostic& diagnostic, const Style& style) {
    const std::string what = printable(spelled(diagnostic.what, style), style);
    const std::string hint = printable(spelled(diagnostic.hint, style), style);
    const TextPlace& place = diagnostic.place;
    if (place.line <= 0 || !diagnostic.said.empty()) {
        const std::string& where = diagnostic.said.empty() ? diagnostic.file : diagnostic.said;
        std::string text = bold(printable(where, style) + ":", style) + " " + what + "\n";
        if (!hint.empty()) text += "  " + hint + "\n";
        return text;
    }

    const std::string number = std::to_string(place.line);
    const std::string gutter = std::string(number.size() + 2, ' ') + " | ";
    std::string text =
        bold(printable(diagnostic.file, style) + ":" + number + ":" + std::to_string(std::max(place.column, 1)) + ":",
             style) +
        " " + what + "\n";
    const ShownLine shown = around_the_mark(diagnostic.line, place, style);
    text += "  " + number + " | ";
    for (const char32_t code : shown.line) append(text, code);
    text += "\n" + gutter;
    for (std::size_t i = 0; i < shown.mark; ++i) {
        if (shown.line[i] == U'\t')
            text += '\t';
        else
            text.append(columns_of(shown.line[i]), ' ');
    }
    std::size_t under = 0;
    for (std::size_t i = shown.mark; i < std::min(shown.mark + shown.length, shown.line.size()); ++i)
        under += columns_of(shown.line[i]);
    text += red("^" + std::string(under > 1 ? under - 1 : 0, '~'), style) + "\n";
    if (!hint.empty()) text += gutter + hint + "\n";
    return text;
}

std::string show(const Diagnostics& diagnostics, const Style& style) {
    std::string text;
    for (const Diagnostic& diagnostic : diagnostics) text += show(diagnostic, style);
    if (diagnostics.size() > 1) text += std::to_string(diagnostics.size()) + " things to mend; nothing was planned.\n";
    return text;
}

}  // namespace voltwright

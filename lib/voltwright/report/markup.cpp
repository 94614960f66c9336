#include "voltwright/report/markup.hpp"

#include "voltwright/units/characters.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <iterator>
#include <utility>

namespace voltwright {

namespace {

constexpr std::string_view replacement = "\ufffd";
constexpr std::string_view ellipsis = "\u2026";

bool unfit(char32_t code) {
    return code < 0x20 || (code >= 0x7f && code < 0xa0) || code == 0x061c || code == 0x200e || code == 0x200f ||
           (code >= 0x2028 && code <= 0x202e) || (code >= 0x2060 && code <= 0x206f) || code == 0xfeff ||
           (code >= 0xfff9 && code <= 0xfffb) || (code & 0xfffe) == 0xfffe || (code >= 0xfdd0 && code <= 0xfdef);
}

/// Hundredths of the size that each character from the blank to the tilde takes: the measured advances of a wide
/// sans-serif face, so that narrower ones fit as well.
constexpr std::array<unsigned char, 95> advances = {
    32, 41, 46, 84, 64, 96, 78, 28, 40,  40, 50, 84, 32, 37, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64,
    64, 64, 34, 34, 84, 84, 84, 54, 100, 69, 69, 70, 78, 64, 58, 78, 76, 30, 30, 66, 56, 87, 75, 79,
    61, 79, 70, 64, 62, 74, 69, 99, 69,  62, 69, 40, 34, 40, 84, 50, 50, 62, 64, 55, 64, 62, 36, 64,
    64, 28, 28, 58, 28, 98, 64, 62, 64,  64, 42, 53, 40, 64, 60, 82, 60, 60, 53, 64, 34, 64, 84};

double ems_of(char32_t code) {
    if (code >= 0x20 && code < 0x7f) return advances[code - 0x20] / 100.0;
    if (code < 0x20) return 1.0;
    if (code == 0xa0) return advances[0] / 100.0;
    if (code == 0x2026) return 1.0;
    return code < 0x250 ? 0.8 : 1.05;  // accented letters; anything else
}

/// The next character and how many bytes it takes, one for what is no UTF-8.
std::pair<char32_t, std::size_t> next_of(std::string_view text, std::size_t at) {
    const Character next = character_at(text, at);
    return {next.bytes == 0 ? 0xfffd : next.code, std::max<std::size_t>(next.bytes, 1)};
}

/// Bold letters are wider by so much.
constexpr double heavier = 1.16;

/// How far a text fits into a line that begins at `at`, one character at least.
struct Fit {
    std::size_t end;
    std::size_t blank;  ///< the last one before it; the line's beginning where there is none
};
Fit fit_of(std::string_view text, std::size_t at, double wide) {
    double taken = 0.0;
    Fit fit{at, at};
    while (fit.end < text.size()) {
        const auto [code, bytes] = next_of(text, fit.end);
        if (code == ' ') fit.blank = fit.end;
        if (taken + ems_of(code) > wide && fit.end > at) break;
        taken += ems_of(code);
        fit.end += bytes;
    }
    return fit;
}

std::string without_blanks_behind(std::string_view text) {
    return std::string(text.substr(0, text.find_last_not_of(' ') + 1));
}

/// Takes characters away at the end until an ellipsis fits behind them.
std::string with_ellipsis(std::string_view text, double wide) {
    while (!text.empty() && voltwright::ems_of(text) + 1.0 > wide) {
        bool inner = true;
        while (inner && !text.empty()) {
            inner = (static_cast<unsigned char>(text.back()) & 0xc0u) == 0x80u;
            text.remove_suffix(1);
        }
    }
    return without_blanks_behind(text) + std::string(ellipsis);
}

}  // namespace

std::string escaped(std::string_view text) {
    std::string result;
    result.reserve(text.size() + 16);
    for (std::size_t at = 0; at < text.size();) {
        const Character next = character_at(text, at);
        const std::size_t bytes = std::max<std::size_t>(next.bytes, 1);
        switch (next.code) {
            case '&': result += "&amp;"; break;
            case '<': result += "&lt;"; break;
            case '>': result += "&gt;"; break;
            case '"': result += "&quot;"; break;
            case '\'': result += "&#39;"; break;
            case '\n':
            case '\r':
            case '\t': result += ' '; break;
            default:
                if (next.bytes == 0 || unfit(next.code))
                    result += replacement;
                else
                    result.append(text.substr(at, bytes));
        }
        at += bytes;
    }
    return result;
}

std::string in_signs(std::string_view text) {
    struct Unit {
        std::string_view plain, sign;
    };
    constexpr Unit units[] = {{"degC", "°C"}, {"degF", "°F"}, {"mOhm", "mΩ"}, {"mm2", "mm²"}, {"AWG", "AWG"},
                              {"V", "V"},     {"mV", "mV"},   {"A", "A"},     {"mA", "mA"},   {"W", "W"},
                              {"Ah", "Ah"},   {"Wh", "Wh"},   {"m", "m"},     {"mm", "mm"},   {"h", "h"},
                              {"min", "min"}, {"kg", "kg"},   {"%", "%"}};
    const auto is_word = [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; };
    std::string result;
    result.reserve(text.size() + 16);
    for (std::size_t at = 0; at < text.size();) {
        const bool between = text[at] == ' ' && at > 0 && std::isdigit(static_cast<unsigned char>(text[at - 1])) != 0;
        const auto unit = std::find_if(std::begin(units), std::end(units), [&](const Unit& one) {
            const std::size_t end = at + 1 + one.plain.size();
            return between && text.substr(at + 1, one.plain.size()) == one.plain &&
                   (end >= text.size() || !is_word(text[end]));
        });
        if (unit == std::end(units)) {
            result += text[at++];
            continue;
        }
        result.append("\u00a0").append(unit->sign);
        at += 1 + unit->plain.size();
    }
    return result;
}

std::string cut(std::string_view text, std::size_t characters) {
    std::size_t at = 0;
    for (std::size_t count = 0; at < text.size(); ++count) {
        if (count + 1 > characters) return std::string(text.substr(0, at)) + std::string(ellipsis);
        at += next_of(text, at).second;
    }
    return std::string(text);
}

double ems_of(std::string_view text, bool bold) {
    double sum = 0.0;
    for (std::size_t at = 0; at < text.size();) {
        const auto [code, bytes] = next_of(text, at);
        sum += ems_of(code);
        at += bytes;
    }
    return bold ? sum * heavier : sum;
}

std::vector<std::string> in_lines(std::string_view text, double ems, std::size_t most, bool bold) {
    const double wide = bold ? ems / heavier : ems;
    std::vector<std::string> lines;
    for (std::size_t at = text.find_first_not_of(' '); at < text.size(); at = text.find_first_not_of(' ', at)) {
        const Fit fit = fit_of(text, at, wide);
        if (fit.end < text.size() && lines.size() + 1 == most) {
            lines.push_back(with_ellipsis(text.substr(at, fit.end - at), wide));
            return lines;
        }
        // At its last blank, where there is one.
        const std::size_t end = fit.end < text.size() && fit.blank > at ? fit.blank : fit.end;
        lines.push_back(without_blanks_behind(text.substr(at, end - at)));
        at = end;
    }
    return lines;
}

}  // namespace voltwright

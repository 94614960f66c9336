#include "voltwright/units/gauge.hpp"

#include "voltwright/units/scan.hpp"
#include "voltwright/units/show.hpp"
#include "voltwright/units/spellings.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace voltwright {

Length awg_diameter(int number) { return millimetres(0.127 * std::pow(92.0, (36.0 - number) / 39.0)); }

Area awg_area(int number) {
    const Length d = awg_diameter(number);
    return std::numbers::pi / 4.0 * d * d;
}

// ---- reading and writing --------------------------------------------------------------------------------------------

namespace {

constexpr int thickest_awg = -3, thinnest_awg = 40;
constexpr double thinnest_mm2 = 0.05, thickest_mm2 = 1000.0;
constexpr double thinnest_auto = 1.0, thickest_auto = 12.0;

std::string digits_of(double x) { return std::isfinite(x) ? shortest_digits(x + 0.0) : "?"; }

Unreadable refuse(std::string why, std::string hint) { return {std::move(why), std::move(hint), 0}; }

/// "4/0", "0000": 4. Only AWG counts sizes in noughts; a single "0" is not told from a bare number.
std::optional<int> noughts(std::string_view text) {
    if (text.size() == 3 && text.substr(1) == "/0" && text[0] >= '1' && text[0] <= '9') return text[0] - '0';
    const bool all = text.size() > 1 && std::all_of(text.begin(), text.end(), [](char c) { return c == '0'; });
    return all ? std::optional(static_cast<int>(text.size())) : std::nullopt;
}

/// The number of "8 AWG", "AWG 8", "#8 AWG", "4/0 AWG", "00": what is left without the name of the system. Nothing when
/// the text does not speak of AWG.
std::optional<std::string_view> number_in_awg(std::string_view text) {
    for (const std::string_view word : {"AWG", "B&S", "B & S"}) {
        if (text.size() < word.size()) continue;
        const std::size_t rest = text.size() - word.size();
        std::string_view number;
        if (same_word(text.substr(rest), word))
            number = text.substr(0, rest);
        else if (same_word(text.substr(0, word.size()), word))
            number = text.substr(word.size());
        else
            continue;
        number = without_blanks_around(number);
        if (number.substr(0, 1) == "#") number = without_blanks_around(number.substr(1));
        return number;
    }
    if (noughts(text)) return text;
    return {};
}

constexpr const char* awg_range = "AWG is read from 4/0 to 40: \"8 AWG\", \"4/0 AWG\"";

Read<Gauge> read_awg(std::string_view number, std::string_view text) {
    if (const auto zeros = noughts(number)) {
        if (1 - *zeros < thickest_awg) return refuse(quoted_for_message(text) + " is no size of AWG", awg_range);
        return awg(1 - *zeros);
    }
    const LeadingNumber n = leading_number(number);
    const bool whole =
        n.kind == LeadingNumber::Kind::number && n.length == number.size() && n.value == std::floor(n.value);
    if (!whole || n.value < 0.0 || n.value > thinnest_awg)
        return refuse(quoted_for_message(text) + " is no size of AWG", awg_range);
    return awg(static_cast<int>(n.value));
}

std::optional<Gauge> within(Gauge gauge, double least, double most) {
    return gauge.number >= least && gauge.number <= most ? std::optional(gauge) : std::nullopt;
}

/// `digits` and the unit behind them in a hint; an example where the digits are long or odd.
std::string hint(std::string_view digits, std::string_view unit) {
    constexpr std::size_t long_number = 8;
    const bool plain = digits.size() <= long_number && leading_number(digits).length == digits.size();
    return "\"" + (plain && !digits.empty() ? std::string(digits) : "8") + " " + std::string(unit) + "\"";
}

Read<Gauge> read_number_and_unit(std::string_view text) {
    const LeadingNumber n = leading_number(text);
    const std::string_view digits = text.substr(0, n.length);
    const std::string_view rest = without_blanks_around(text.substr(n.length));
    const std::string what = quoted_for_message(text);
    const std::string either = hint(digits, "AWG") + " or " + hint(digits, "mm2");
    switch (n.kind) {
        case LeadingNumber::Kind::none:
            return refuse(what + " is no cable size", "\"8 AWG\", \"10 mm2\" or \"6 mm auto\"");
        case LeadingNumber::Kind::decimal_comma: {
            std::string with_point(digits);
            std::replace(with_point.begin(), with_point.end(), ',', '.');
            return refuse(quoted_for_message(digits) + ": write the decimal with a point", hint(with_point, "mm2"));
        }
        case LeadingNumber::Kind::out_of_range:
            return refuse(quoted_for_message(digits) + " is a number too large or too small to work with",
                          "\"8 AWG\" or \"10 mm2\"");
        case LeadingNumber::Kind::number: break;
    }
    if (rest.empty()) return refuse("the bare number " + what + " is no cable size: AWG or mm2?", either);
    for (const std::string_view word : {"gauge", "ga", "ga."})
        if (same_word(rest, word)) return refuse(what + " does not say in which system: AWG or mm2?", either);

    const std::string_view millimetre = preferred_unit(Dimension::area).spelling.substr(0, 2);
    if (same_word(rest, millimetre))
        return refuse(what + " is a length: the copper's cross-section, or the outside diameter of auto cable?",
                      hint(digits, "mm2") + " or " + hint(digits, "mm auto"));
    if (same_word(rest.substr(0, millimetre.size()), millimetre) &&
        same_word(without_blanks_around(rest.substr(millimetre.size())), "auto")) {
        const auto gauge = within(trade(n.value), thinnest_auto, thickest_auto);
        if (gauge) return *gauge;
        return refuse(what + " is no size of auto cable", "auto cable is read from 1 to 12 mm outside: \"6 mm auto\"");
    }
    const Unit* unit = find_unit(rest);
    if (unit && unit->dimension == Dimension::area && unit->times == preferred_unit(Dimension::area).times) {
        const auto gauge = within(metric(n.value), thinnest_mm2, thickest_mm2);
        if (gauge) return *gauge;
        return refuse(what + " is no cable size", "cross-sections are read from 0.05 to 1000 mm2: \"10 mm2\"");
    }
    return refuse(what + " is no cable size", "\"8 AWG\", \"10 mm2\" or \"6 mm auto\"");
}

/// A size and nothing else, without blanks around.
Read<Gauge> read_size(std::string_view text) {
    if (const auto number = number_in_awg(text)) return read_awg(*number, text);
    if (text[0] == '#') {
        const std::string_view digits = without_blanks_around(text.substr(1));
        return refuse(quoted_for_message(text) + " does not say in which system: AWG or mm2?",
                      hint(digits, "AWG") + " or " + hint(digits, "mm2"));
    }
    return read_number_and_unit(text);
}

/// "16 mm2 aluminium", "16 mm2 CCA", "16 mm2 copper-clad".
bool names_aluminium(std::string_view text) {
    const auto is_letter = [](char c) { return in_lower_case(c) >= 'a' && in_lower_case(c) <= 'z'; };
    constexpr std::string_view names[] = {"aluminium", "aluminum", "alu", "al", "cca", "clad"};
    for (std::size_t at = 0; at < text.size();) {
        std::size_t end = at;
        while (end < text.size() && is_letter(text[end])) ++end;
        for (const std::string_view name : names)
            if (same_word(text.substr(at, end - at), name)) return true;
        at = end + 1;
    }
    return false;
}

/// The longest beginning that is a size by itself: "8 AWG" in "8 AWG tinned".
std::optional<std::string_view> size_in_front(std::string_view text) {
    for (std::size_t end = text.size(); end-- > 1;) {
        if (blanks_at(text, end) == 0) continue;
        const std::string_view front = without_blanks_around(text.substr(0, end));
        if (!front.empty() && read_size(front)) return front;
    }
    return {};
}

}  // namespace

std::string show(Gauge gauge) {
    switch (gauge.system) {
        case GaugeSystem::awg:
            return gauge.number <= 0.0 ? digits_of(1.0 - gauge.number) + "/0 AWG" : digits_of(gauge.number) + " AWG";
        case GaugeSystem::metric: return digits_of(gauge.number) + " mm2";
        case GaugeSystem::trade: break;
    }
    return digits_of(gauge.number) + " mm auto";
}

std::string show_cable(Gauge size, Temperature insulation) { return show(size) + ", " + show(insulation); }

Read<Gauge> parse_gauge(std::string_view text) {
    if (text.size() > longest_text) return refuse("this text is too long for a cable size", "\"8 AWG\" or \"10 mm2\"");
    const std::string_view whole = without_blanks_around(text);
    if (whole.empty()) return refuse("this text is empty; a cable size is wanted", "\"8 AWG\" or \"10 mm2\"");
    auto read = read_size(whole);
    if (read) return read;
    if (names_aluminium(whole))
        return refuse("aluminium and copper-clad aluminium are not planned with: every size here is of copper",
                      "the size of a copper cable: \"8 AWG\", \"10 mm2\"");
    if (const auto front = size_in_front(whole))
        return refuse(quoted_for_message(without_blanks_around(whole.substr(front->size()))) +
                          " behind the size is not understood",
                      "\"" + show(*read_size(*front)) + "\"");
    return read;
}

}  // namespace voltwright

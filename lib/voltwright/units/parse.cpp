#include "voltwright/units/parse.hpp"

#include "voltwright/units/scan.hpp"
#include "voltwright/units/spellings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <concepts>
#include <vector>

namespace voltwright {

namespace {

// ---- what a text says, before any dimension is asked of it ----------------------------------------------------------

/// A number and its unit, as typed.
struct Amount {
    double number = 0.0;
    std::string_view digits;
    std::string_view unit_text;
    const Unit* unit = nullptr;
};

enum class Slip {
    none,
    too_long,
    empty,
    no_number,
    decimal_comma,
    out_of_range,
    no_unit,
    unknown_unit,
    negative_width
};

/// The amounts of a text, or the slip at which reading stopped.
struct Scan {
    Slip slip = Slip::none;
    Amount value;
    std::optional<Amount> half_width;
    /// What the slip is about, and where it stands in the text.
    std::string_view about;
    std::size_t at = 0;

    /// Where reading stopped: in the half width, if that had begun.
    [[nodiscard]] const Amount& last() const { return half_width ? *half_width : value; }
};

class Scanner {
public:
    explicit Scanner(std::string_view text) : text_(text) {}

    Scan all() {
        if (text_.size() > longest_text) return fail(Slip::too_long, {}, longest_text);
        const std::string_view whole = without_blanks_around(text_);
        if (whole.empty()) return fail(Slip::empty, {}, 0);
        const auto sign = find_spread_sign(whole);
        if (!amount(whole.substr(0, sign ? sign->at : whole.size()), scan_.value)) return scan_;
        if (sign) {
            const std::string_view behind = whole.substr(sign->at + sign->length);
            if (!amount(behind, scan_.half_width.emplace())) return scan_;
            if (scan_.half_width->number < 0.0) {
                const std::string_view digits = scan_.half_width->digits;
                return fail(Slip::negative_width, digits, offset(digits));
            }
            if (!scan_.value.unit) take_unit(scan_.value, *scan_.half_width);
            if (!scan_.half_width->unit) take_unit(*scan_.half_width, scan_.value);
        }
        if (!scan_.value.unit) return fail(Slip::no_unit, whole, offset(whole) + whole.size());
        return scan_;
    }

private:
    Scan fail(Slip slip, std::string_view about, std::size_t at) {
        scan_.slip = slip;
        scan_.about = about;
        scan_.at = at;
        return scan_;
    }

    static void take_unit(Amount& to, const Amount& from) {
        to.unit = from.unit;
        to.unit_text = from.unit_text;
    }

    [[nodiscard]] std::size_t offset(std::string_view part) const {
        return static_cast<std::size_t>(part.data() - text_.data());
    }

    bool stop(Slip slip, std::string_view about) {
        fail(slip, about, offset(about));
        return false;
    }

    bool amount(std::string_view part, Amount& amount) {
        part = without_blanks_around(part);
        const LeadingNumber number = leading_number(part);
        amount.digits = part.substr(0, number.length);
        amount.unit_text = without_blanks_around(part.substr(number.length));
        if (!amount.unit_text.empty()) amount.unit = find_unit(amount.unit_text);
        switch (number.kind) {
            case LeadingNumber::Kind::none: return stop(Slip::no_number, part);
            case LeadingNumber::Kind::decimal_comma: return stop(Slip::decimal_comma, amount.digits);
            case LeadingNumber::Kind::out_of_range: return stop(Slip::out_of_range, amount.digits);
            case LeadingNumber::Kind::number: break;
        }
        amount.number = number.value;
        if (!amount.unit && !amount.unit_text.empty()) return stop(Slip::unknown_unit, amount.unit_text);
        return true;
    }

    std::string_view text_;
    Scan scan_;
};

// ---- why a text is not what was asked for ---------------------------------------------------------------------------

/// What is asked for, in words.
struct Wanted {
    Dimension dimension;
    std::string_view name, example, unit;
};

Wanted wanted(Dimension dimension, bool rise) {
    if (rise) return {dimension, "a difference of temperatures", "24 K", "K"};
    return {dimension, name_of(dimension), example_of(dimension), preferred_unit(dimension).spelling};
}

/// Whether a hint may repeat the number as it was typed.
bool is_plain_number(std::string_view digits) {
    constexpr std::size_t long_number = 16;
    return !digits.empty() && digits.size() <= long_number &&
           leading_number(digits).kind == LeadingNumber::Kind::number;
}

/// The number as it was typed, with the unit; an example where that would be long or odd.
std::string with_unit(std::string_view digits, std::string_view unit, const Wanted& wanted) {
    return in_quotes(is_plain_number(digits) ? seen(digits) + " " + std::string(unit) : std::string(wanted.example));
}

/// The whole text, with the unit where reading stopped: at the value, or at the half width behind it.
std::string with_unit(const Scan& scan, std::string_view unit, const Wanted& wanted) {
    if (!scan.half_width) return with_unit(scan.value.digits, unit, wanted);
    const Amount &value = scan.value, &half = *scan.half_width;
    if (!is_plain_number(value.digits) || !is_plain_number(half.digits) ||
        (value.unit && value.unit->dimension != wanted.dimension))
        return in_quotes(wanted.example);
    const std::string value_unit = value.unit ? " " + std::string(value.unit->spelling) : "";
    return in_quotes(seen(value.digits) + value_unit + " +- " + seen(half.digits) + " " + std::string(unit));
}

Unreadable without_unit(const Scan& scan, const Wanted& wanted) {
    std::string why = std::string(wanted.name) + " needs its unit";
    // No unit is the likely one: 5 is five minutes as well as five hours.
    if (wanted.dimension == Dimension::duration) return {why, in_quotes(wanted.example), scan.at};
    const std::string as_typed = with_unit(scan.value.digits, wanted.unit, wanted);
    if (wanted.dimension == Dimension::ratio && scan.value.number > 0.0 && scan.value.number <= 1.0)
        return {why, in_quotes(shortest_digits(scan.value.number * 100.0) + " %") + " or " + as_typed, scan.at};
    return {why, as_typed, scan.at};
}

Unreadable with_comma(const Scan& scan, const Wanted& wanted) {
    std::string digits(scan.about);
    const std::size_t comma = digits.find(',');
    const std::size_t behind = digits.size() - comma - 1;
    digits[comma] = '.';
    const Unit* unit = scan.last().unit;
    const std::string_view spelling = unit && unit->dimension == wanted.dimension ? unit->spelling : wanted.unit;
    const std::string why = quoted_for_message(scan.about) + ": write the decimal with a point";
    if (scan.half_width) return {why, in_quotes(wanted.example), scan.at};
    std::string hint = with_unit(digits, spelling, wanted);
    // Three digits behind a comma may be thousands.
    if (behind == 3) hint += " or " + with_unit(digits.erase(comma, 1), spelling, wanted);
    return {why, hint, scan.at};
}

/// "25-30 A", "25 to 30 A": the middle and half the width.
std::optional<std::string> as_spread(const Scan& scan, const Wanted& wanted) {
    std::string_view rest = scan.about;
    bool range = false;
    for (const std::string_view word : {"-", "\u2013", "..", "to ", "\u2026"})
        if (!range && rest.substr(0, word.size()) == word) {
            rest = without_blanks_around(rest.substr(word.size()));
            range = true;
        }
    const LeadingNumber second = leading_number(rest);
    if (!range || second.kind != LeadingNumber::Kind::number || scan.half_width) return {};
    const Unit* unit = find_unit(without_blanks_around(rest.substr(second.length)));
    if (!unit || unit->dimension != wanted.dimension || second.value < scan.value.number) return {};
    const double middle = (scan.value.number + second.value) / 2.0;
    const std::string hint =
        shortest_digits(middle) + " +- " + shortest_digits(second.value - middle) + " " + std::string(unit->spelling);
    return hint.find("inf") == std::string::npos ? std::optional(in_quotes(hint)) : std::nullopt;
}

/// Signs for which there is a unit to write instead.
struct Misspelling {
    std::string_view sign, why, unit;
    Dimension dimension;
};
constexpr Misspelling misspellings[] = {
    {"\"", "the sign \" for inches is not understood", "in", Dimension::length},
    {"''", "the sign '' for inches is not understood", "in", Dimension::length},
    {"\u2033", "the sign \u2033 for inches is not understood", "in", Dimension::length},
    {"\u201d", "the sign \u201d for inches is not understood", "in", Dimension::length},
    {"'", "the sign ' for feet is not understood", "ft", Dimension::length},
    {"\u2032", "the sign \u2032 for feet is not understood", "ft", Dimension::length},
    {"\u2019", "the sign \u2019 for feet is not understood", "ft", Dimension::length},
    {"C", "'C' is no unit of temperature here; the sign of the degree is missing", "degC", Dimension::temperature},
    {"F", "'F' is no unit of temperature here; the sign of the degree is missing", "degF", Dimension::temperature},
};

/// The last spelling of a unit in front of other words: "6 m" in "6 m long".
std::optional<std::string_view> unit_in_front(std::string_view text) {
    for (std::size_t end = text.size(); end-- > 1;)
        if (blanks_at(text, end) > 0 && find_unit(text.substr(0, end))) return text.substr(0, end);
    return {};
}

std::string did_you_mean(std::string_view word, const Wanted& wanted) {
    constexpr std::size_t too_short_to_guess = 2;
    const bool plain = std::all_of(word.begin(), word.end(), [](char c) { return c > ' ' && c <= '~'; });
    if (!plain || word.size() <= too_short_to_guess) return {};
    std::vector<std::string_view> of_the_dimension, all;
    for (const Unit& unit : unit_spellings()) {
        // A spelling of less than half the length, or more than double, is no slip of the pen.
        const std::size_t longer = std::max(unit.spelling.size(), word.size());
        if (2 * std::min(unit.spelling.size(), word.size()) < longer) continue;
        all.push_back(unit.spelling);
        if (unit.dimension == wanted.dimension) of_the_dimension.push_back(unit.spelling);
    }
    auto near = nearest_word(word, of_the_dimension);
    if (!near) near = nearest_word(word, all);
    return near ? "did you mean " + in_quotes(*near) + "?" : std::string();
}

Unreadable with_unknown_unit(const Scan& scan, const Wanted& wanted) {
    const std::string_view text = scan.about;
    const std::string_view digits = scan.last().digits;
    const std::string amount = quoted_for_message({digits.data(), text.data() + text.size()});
    const std::string example = in_quotes(wanted.example);

    for (const Misspelling& sign : misspellings) {
        if (sign.dimension != wanted.dimension) continue;
        if (same_word(text, sign.sign)) return {std::string(sign.why), with_unit(scan, sign.unit, wanted), scan.at};
    }
    if (const auto spread = as_spread(scan, wanted))
        return {amount + " is a range; one value is wanted", *spread, scan.at};
    if (is_digit(text[0]) || text[0] == '.' || text[0] == ',')
        return {amount + " is more than one number", "one number, then its unit: " + example, scan.at};
    if (const auto front = unit_in_front(text)) {
        const std::string_view rest = without_blanks_around(text.substr(front->size()));
        const Unit& unit = *find_unit(*front);
        std::string hint = unit.dimension == wanted.dimension ? with_unit(scan, unit.spelling, wanted) : example;
        if (is_digit(rest[0])) hint = "one number, then its unit: " + example;
        return {quoted_for_message(rest) + " behind the unit is not understood", hint,
                scan.at + static_cast<std::size_t>(rest.data() - text.data())};
    }
    for (const Misspelling& sign : misspellings)
        if (sign.dimension == Dimension::length && wanted.dimension == Dimension::length &&
            text.find(sign.sign) != std::string_view::npos)
            return {std::string(sign.why), "feet with a point, or inches: \"6.5 ft\", \"78 in\"", scan.at};
    const std::string why = quoted_for_message(text) + " is no unit that is known here";
    if (const Unit* unit = find_unit_but_for_its_m(text))
        return {why, "m is for milli and M for mega: " + in_quotes(unit->spelling), scan.at};
    const std::string guess = did_you_mean(text, wanted);
    return {why, guess.empty() ? example : guess, scan.at};
}

Unreadable explain(const Scan& scan, const Wanted& wanted) {
    const std::string example = in_quotes(wanted.example);
    switch (scan.slip) {
        case Slip::too_long: return {"this text is too long for a quantity", example, scan.at};
        case Slip::empty: return {"this text is empty; " + std::string(wanted.name) + " is wanted", example, scan.at};
        case Slip::no_number:
            if (scan.half_width && scan.about.empty()) return {"no half width follows the sign +-", example, scan.at};
            if (scan.about.empty()) return {"no number stands before the sign +-", example, scan.at};
            return {quoted_for_message(scan.about) + " does not begin with a number", example, scan.at};
        case Slip::decimal_comma: return with_comma(scan, wanted);
        case Slip::out_of_range:
            return {quoted_for_message(scan.about) + " is a number too large or too small to work with", example,
                    scan.at};
        case Slip::no_unit: return without_unit(scan, wanted);
        case Slip::negative_width:
            return {"a half width is not negative; this one is " + quoted_for_message(scan.about), example, scan.at};
        case Slip::unknown_unit:
        case Slip::none: break;
    }
    return with_unknown_unit(scan, wanted);
}

/// Where the unit of an amount stands, or its number where it has none of its own.
std::size_t place_of(const Amount& amount, std::string_view text) {
    const std::string_view part = amount.unit_text.empty() ? amount.digits : amount.unit_text;
    return static_cast<std::size_t>(part.data() - text.data());
}

/// In SI: the value and the half width.
struct Numbers {
    double value, half_width;
};

Read<Numbers> read_numbers(std::string_view text, Dimension dimension, bool rise) {
    const Scan scan = Scanner(text).all();
    const Wanted wish = wanted(dimension, rise);
    if (scan.slip != Slip::none) return explain(scan, wish);
    const auto refuse = [&](std::string why, const Amount& about) {
        return Unreadable{std::move(why), in_quotes(wish.example), place_of(about, text)};
    };
    const auto is_wanted = [&] { return "; " + std::string(wish.name) + " is wanted"; };

    const Unit& unit = *scan.value.unit;
    if (unit.dimension != dimension)
        return refuse("this is " + std::string(name_of(unit.dimension)) + is_wanted(), scan.value);
    Numbers numbers{rise ? unit.difference_of(scan.value.number) : unit.value_of(scan.value.number), 0.0};

    if (scan.half_width) {
        const Amount& half = *scan.half_width;
        if (half.unit->dimension == dimension)
            numbers.half_width = half.unit->difference_of(half.number);
        else if (half.unit->dimension != Dimension::ratio)
            return refuse("the half width is " + std::string(name_of(half.unit->dimension)) + is_wanted(), half);
        else if (dimension == Dimension::temperature && !rise)
            return refuse("a temperature has no per cent of its own; give the half width in degrees", half);
        else
            numbers.half_width = std::abs(numbers.value) * half.unit->value_of(half.number);
    }
    if (!std::isfinite(numbers.value)) return refuse("this number is too large to work with", scan.value);
    if (!std::isfinite(numbers.half_width))
        return refuse("this half width is too large to work with", *scan.half_width);
    return numbers;
}

template <class Q>
Q from_si(double x) {
    if constexpr (std::same_as<Q, Ratio>)
        return ratio(x);
    else
        return Q::from_value(x);
}

}  // namespace

template <class Q>
Read<Spread<Q>> parse(std::string_view text) {
    const Read<Numbers> numbers = read_numbers(text, dimension<Q>(), std::same_as<Q, TemperatureRise>);
    if (!numbers) return numbers.wrong();
    return Spread<Q>{from_si<Q>(numbers->value), from_si<Difference<Q>>(numbers->half_width)};
}

template Read<Spread<Current>> parse<Current>(std::string_view);
template Read<Spread<Voltage>> parse<Voltage>(std::string_view);
template Read<Spread<Resistance>> parse<Resistance>(std::string_view);
template Read<Spread<Power>> parse<Power>(std::string_view);
template Read<Spread<Energy>> parse<Energy>(std::string_view);
template Read<Spread<Charge>> parse<Charge>(std::string_view);
template Read<Spread<Length>> parse<Length>(std::string_view);
template Read<Spread<Area>> parse<Area>(std::string_view);
template Read<Spread<Volume>> parse<Volume>(std::string_view);
template Read<Spread<Duration>> parse<Duration>(std::string_view);
template Read<Spread<Mass>> parse<Mass>(std::string_view);
template Read<Spread<Angle>> parse<Angle>(std::string_view);
template Read<Spread<Ratio>> parse<Ratio>(std::string_view);
template Read<Spread<Temperature>> parse<Temperature>(std::string_view);
template Read<Spread<TemperatureRise>> parse<TemperatureRise>(std::string_view);

std::optional<Dimension> dimension_of(std::string_view text) {
    const Scan scan = Scanner(text).all();
    if (scan.slip != Slip::none) return {};
    return scan.value.unit->dimension;
}

// ---- words ----------------------------------------------------------------------------------------------------------

namespace {

struct Words {
    Dimension dimension;
    std::string_view name, example;
};
constexpr Words words[] = {
    {Dimension::current, "a current", "25 A"},
    {Dimension::voltage, "a voltage", "14.2 V"},
    {Dimension::resistance, "a resistance", "1.2 mOhm"},
    {Dimension::power, "a power", "45 W"},
    {Dimension::energy, "an energy", "264 Wh"},
    {Dimension::charge, "a charge", "120 Ah"},
    {Dimension::length, "a length", "6.5 m"},
    {Dimension::area, "an area", "16 mm2"},
    {Dimension::volume, "a volume", "40 L"},
    {Dimension::duration, "a duration", "90 min"},
    {Dimension::mass, "a mass", "4 kg"},
    {Dimension::angle, "an angle", "30 deg"},
    {Dimension::ratio, "a ratio", "80 %"},
    {Dimension::temperature, "a temperature", "31 degC"},
};
constexpr std::size_t index_of(Dimension dimension) { return static_cast<std::size_t>(dimension); }
constexpr std::size_t dimensions = std::size(words);
static_assert(index_of(words[dimensions - 1].dimension) == dimensions - 1, "in the order of the enumeration");

std::array<std::string, dimensions> units_by_dimension() {
    std::array<std::string, dimensions> lists;
    for (const Unit& unit : unit_spellings()) {
        std::string& list = lists.at(index_of(unit.dimension));
        list += (list.empty() ? "" : ", ") + std::string(unit.spelling);
    }
    return lists;
}

}  // namespace

std::string_view name_of(Dimension dimension) { return words[index_of(dimension)].name; }
std::string_view example_of(Dimension dimension) { return words[index_of(dimension)].example; }

std::string_view units_of(Dimension dimension) {
    static const std::array<std::string, dimensions> lists = units_by_dimension();
    return lists.at(index_of(dimension));
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
    // Rows of the table of distances between the beginnings of both: two back, one back, this one.
    std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    const auto same = [&](std::size_t i, std::size_t j) { return in_lower_case(a[i - 1]) == in_lower_case(b[j - 1]); };
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::swap(before, last);
        std::swap(last, row);
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same(i, j) ? 0U : 1U)});
            if (i > 1 && j > 1 && same(i, j - 1) && same(i - 1, j)) row[j] = std::min(row[j], before[j - 2] + 1);
        }
    }
    return row[b.size()];
}

}  // namespace voltwright

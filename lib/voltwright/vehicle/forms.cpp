#include "voltwright/vehicle/forms.hpp"

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <limits>

namespace voltwright {

namespace {

constexpr std::size_t longest_name = 80;  ///< characters
constexpr std::size_t longest_list = 366;

// ---- text -----------------------------------------------------------------------------------------------------------

bool is_blank(char c) { return c == ' ' || c == '\t'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
    return text;
}

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return result;
}

/// Somebody meant a quantity, rather than a name.
bool begins_with_number(std::string_view text) {
    text = trimmed(text);
    for (const std::string_view sign : {"+", "-", "\u2212"})
        if (text.substr(0, sign.size()) == sign) {
            text.remove_prefix(sign.size());
            break;
        }
    if (!text.empty() && text.front() == '.') text.remove_prefix(1);
    return !text.empty() && is_digit(text.front());
}

template <class Words>
std::string alternatives(const Words& words) {
    std::string text;
    std::size_t i = 0;
    for (const std::string_view word : words) {
        if (i) text += i + 1 == words.size() ? " or " : ", ";
        text += "\"" + std::string(word) + "\"";
        ++i;
    }
    return text;
}

bool fail(Faults& faults, const std::string& path, std::string what, std::string hint = {}) {
    faults.push_back({path, std::move(what), std::move(hint)});
    return false;
}

std::string at(const std::string& path, std::size_t index) { return path + "[" + std::to_string(index) + "]"; }
std::string at(std::size_t index, std::string_view rest = {}) {
    return "[" + std::to_string(index) + "]" + std::string(rest);
}

/// The text of an entry, trimmed; else a fault.
const std::string* text_or_fault(const Entry& entry, const std::string& path, std::string_view wanted,
                                 std::string_view example, Faults& faults) {
    if (!entry.text()) detail::no_quantity(entry, path, wanted, example, faults);
    return entry.text();
}

template <class Words>
std::string list_of(const Words& written) {
    std::string text = "[";
    for (std::size_t i = 0; i < written.size(); ++i) text += (i ? ", " : "") + written[i];
    return text + "]";
}

/// Calls with each element of a list and its path; an entry that is no list stands for its only element.
template <class Visit>
bool each_element(const Entry& entry, const std::string& path, Faults& faults, Visit visit) {
    const Entry::List* list = entry.list();
    if (!list) return visit(entry, path);
    if (list->size() > longest_list)
        return fail(
            faults, path,
            "a list may have " + std::to_string(longest_list) + " things; this has " + std::to_string(list->size()));
    bool good = true;
    for (std::size_t i = 0; i < list->size(); ++i) good = visit((*list)[i], at(path, i)) && good;
    return good;
}

// ---- quantities with something behind them --------------------------------------------------------------------------

/// "105 degC xlpe" is a temperature and "xlpe": the longest part in front that reads as the quantity.
template <class Q>
struct WithWords {
    Read<Spread<Q>> quantity;
    std::string_view words;
};

template <class Q>
WithWords<Q> split_words(std::string_view text) {
    text = trimmed(text);
    WithWords<Q> best{parse<Q>(text), {}};
    if (best.quantity) return best;
    for (std::size_t end = text.size(); end-- > 1;) {
        if (!is_blank(text[end])) continue;
        const auto quantity = parse<Q>(text.substr(0, end));
        if (quantity) return {quantity, trimmed(text.substr(end))};
    }
    // The words of a fault are about the first two words at most: "50 V", not "50 V SF30".
    const std::size_t first = text.find_first_of(" \t");
    if (first != std::string_view::npos) {
        const std::size_t next = text.find_first_not_of(" \t", first);
        const std::size_t second = next == std::string_view::npos ? next : text.find_first_of(" \t", next);
        if (second != std::string_view::npos) best.quantity = parse<Q>(text.substr(0, second));
    }
    return best;
}

/// Copper-clad and plain aluminium: no size of it is planned with.
bool mentions_aluminium(std::string_view text) {
    const std::string words = lower(text);
    for (const std::string_view word : {"alumini", "aluminum", "copper-clad", "copper clad"})
        if (words.find(word) != std::string::npos) return true;
    // "CCA", "Al": as words of their own, for they are short.
    std::string word;
    for (const char c : words + " ") {
        if (c >= 'a' && c <= 'z') {
            word += c;
            continue;
        }
        if (word == "cca" || word == "al" || word == "alu") return true;
        word.clear();
    }
    return false;
}

bool refuse_aluminium(const std::string& path, Faults& faults) {
    return fail(
        faults, path,
        "aluminium and copper-clad aluminium are not planned with: they carry about a third less than copper of the "
        "same size, creep until the lug is loose, and their oxide heats the joint",
        "take a copper cable and write its size: \"8 AWG\", \"10 mm2\"");
}

// ---- one of several dimensions --------------------------------------------------------------------------------------

template <class... Qs>
std::string names_of() {
    std::string text;
    ((text += (text.empty() ? "" : " or ") + std::string(name_of(dimension<Qs>()))), ...);
    return text;
}

template <class First, class... Rest>
bool read_either(const Entry& entry, const std::string& path, std::variant<Spread<First>, Spread<Rest>...>& value,
                 Faults& faults) {
    const std::string wanted = names_of<First, Rest...>();
    const std::string* text = text_or_fault(entry, path, wanted, example_of(dimension<First>()), faults);
    if (!text) return false;
    const auto found = dimension_of(*text);
    const auto take = [&]<class Q>(const Q*) {
        const auto read = parse<Q>(*text);
        if (!read) {
            detail::unreadable(path, read.reason(), faults);
            return false;
        }
        value = *read;
        return true;
    };
    bool done = false, good = false;
    const auto attempt = [&]<class Q>(const Q* kind) {
        if (!done && found == dimension<Q>()) {
            done = true;
            good = take(kind);
        }
    };
    attempt(static_cast<const First*>(nullptr));
    (attempt(static_cast<const Rest*>(nullptr)), ...);
    if (done) return good;
    if (found)
        return fail(faults, path, "this is " + std::string(name_of(*found)) + "; " + wanted + " is wanted",
                    detail::quoted(example_of(dimension<First>())));
    return take(static_cast<const First*>(nullptr));
}

template <class Variant>
std::string write_either(const Variant& value) {
    return std::visit([](const auto& spread) { return detail::quoted(write(spread)); }, value);
}

template <class Variant>
Measure measure_of(const Variant& value) {
    return std::visit([](const auto& spread) { return Measure{spread.value}; }, value);
}

Shape quantity(Dimension dimension) { return {Shape::Kind::quantity, name_of(dimension), {dimension}}; }

// ---- lists of sections ----------------------------------------------------------------------------------------------

template <class Section>
bool read_sections(const Entry& entry, const std::string& path, std::vector<Section>& value, Faults& faults) {
    return each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        if (!element.section()) {
            detail::wrong_kind(element, place, "a table of keys in braces", faults);
            return false;
        }
        Section section;
        const std::size_t before = faults.size();
        read_section(element, place, keys_of<Section>(), &section, faults);
        value.push_back(std::move(section));
        return faults.size() == before;
    });
}

template <class Section>
std::string write_sections(const std::vector<Section>& value) {
    std::vector<std::string> written;
    for (const Section& section : value) written.push_back(write_inline(keys_of<Section>(), &section));
    return list_of(written);
}

template <class Section>
Shape section_shape(std::string_view says) {
    Shape shape{Shape::Kind::section, says};
    shape.keys = keys_of<Section>();
    return shape;
}

Shape with_parts(Shape::Kind kind, std::string_view says, std::vector<Shape> parts) {
    Shape shape{kind, says};
    shape.parts = std::move(parts);
    return shape;
}

Shape with_words(Shape::Kind kind, std::string_view says, std::vector<std::string_view> words) {
    Shape shape{kind, says};
    shape.words = std::move(words);
    return shape;
}

}  // namespace

// ---- faults ---------------------------------------------------------------------------------------------------------

namespace detail {

std::string quoted(std::string_view text) {
    std::string result = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') {
            result += '\\';
            result += c;
        } else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) {
            char code[8];
            std::snprintf(code, sizeof code, "\\u%04X", static_cast<unsigned>(static_cast<unsigned char>(c)));
            result += code;
        } else {
            result += c;
        }
    }
    return result + "\"";
}

void no_quantity(const Entry& entry, const std::string& path, std::string_view wanted, std::string_view example,
                 Faults& faults) {
    const bool number =
        std::holds_alternative<std::int64_t>(entry.content) || std::holds_alternative<double>(entry.content);
    if (!number) return wrong_kind(entry, path, wanted, faults);
    const bool has_unit = begins_with_number(example) && !is_digit(example.back());
    faults.push_back({path,
                      has_unit ? std::string(wanted) + " is wanted; this is a bare number, without its unit"
                               : std::string(wanted) + " is wanted; this is a bare number",
                      "write it in quotes, as in " + quoted(example)});
}

void unreadable(const std::string& path, const Unreadable& reason, Faults& faults) {
    faults.push_back({path, reason.why, reason.hint});
}

std::optional<std::size_t> read_word(const Entry& entry, const std::string& path,
                                     std::span<const std::string_view> words, Faults& faults) {
    const std::string* text = entry.text();
    if (!text) {
        wrong_kind(entry, path, "one of " + alternatives(words), faults);
        return {};
    }
    const std::string typed = lower(trimmed(*text));
    for (std::size_t i = 0; i < words.size(); ++i)
        if (words[i] == typed) return i;

    // What people say for the word that is meant.
    struct Said {
        std::string_view typed, word, hint;
    };
    static constexpr Said usual[] = {
        {"lifepo4", "lfp", "write \"lfp\": lithium iron phosphate"},
        {"lifepo", "lfp", "write \"lfp\": lithium iron phosphate"},
        {"lithium", "lfp", "write \"lfp\" if it is lithium iron phosphate; no other lithium battery is planned with"},
        {"li-ion", "lfp", "write \"lfp\" if it is lithium iron phosphate; no other lithium battery is planned with"},
        {"lead-acid", "agm", "say which: \"flooded\", \"agm\" or \"gel\""},
        {"lead acid", "agm", "say which: \"flooded\", \"agm\" or \"gel\""},
        {"lead", "agm", "say which: \"flooded\", \"agm\" or \"gel\""},
        {"sealed", "agm", "say which: \"agm\" or \"gel\""},
        {"vrla", "agm", "say which: \"agm\" or \"gel\""},
        {"wet", "flooded", "write \"flooded\""},
        {"variable", "smart", "write \"smart\""},
        {"fixed", "plain", "write \"plain\""},
        {"standard", "plain", "write \"plain\""},
        {"on", "idling", "say which: \"idling\" or \"driving\""},
        {"running", "idling", "say which: \"idling\" or \"driving\""},
    };
    std::string hint = "one of " + alternatives(words);
    const auto said = std::find_if(std::begin(usual), std::end(usual), [&](const Said& one) {
        return one.typed == typed && std::find(words.begin(), words.end(), one.word) != words.end();
    });
    if (said != std::end(usual))
        hint = said->hint;
    else if (const auto near = nearest_word(typed, words))
        hint = "did you mean \"" + std::string(*near) + "\"?";
    faults.push_back({path, detail::quoted(*text) + " is not known here", std::move(hint)});
    return {};
}

}  // namespace detail

// ---- the plain ones -------------------------------------------------------------------------------------------------

bool Form<int>::read(const Entry& entry, const std::string& path, int& value, Faults& faults) {
    const auto* number = std::get_if<std::int64_t>(&entry.content);
    if (!number) {
        detail::wrong_kind(entry, path, "a whole number", faults);
        const std::string* text = entry.text();
        if (text && !trimmed(*text).empty() && std::all_of(text->begin(), text->end(), is_digit))
            faults.back().hint = "without quotes: " + *text;
        return false;
    }
    if (*number < std::numeric_limits<int>::min() || *number > std::numeric_limits<int>::max())
        return fail(faults, path, std::to_string(*number) + " is too large a number");
    value = static_cast<int>(*number);
    return true;
}
std::string Form<int>::write(const int& value) { return std::to_string(value); }
Checked Form<int>::measures(const int& value) { return {{value}}; }
Shape Form<int>::shape() { return {Shape::Kind::whole, "a whole number"}; }

bool Form<bool>::read(const Entry& entry, const std::string& path, bool& value, Faults& faults) {
    if (const bool* truth = std::get_if<bool>(&entry.content)) {
        value = *truth;
        return true;
    }
    detail::wrong_kind(entry, path, "true or false", faults);
    if (entry.text()) faults.back().hint = "write true or false, without quotes";
    return false;
}
std::string Form<bool>::write(const bool& value) { return value ? "true" : "false"; }
Checked Form<bool>::measures(const bool&) { return {}; }
Shape Form<bool>::shape() { return {Shape::Kind::flag, "true or false"}; }

bool Form<std::string>::read(const Entry& entry, const std::string& path, std::string& value, Faults& faults) {
    if (!entry.text()) {
        detail::wrong_kind(entry, path, "a text", faults);
        return false;
    }
    const std::string_view text = trimmed(*entry.text());
    if (text.empty()) return fail(faults, path, "this text is empty");
    std::size_t characters = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = [&](std::size_t at) { return at < text.size() ? static_cast<unsigned char>(text[at]) : 0U; };
        if ((byte(i) & 0xC0U) != 0x80U) ++characters;
        const bool control =
            byte(i) < 0x20U || byte(i) == 0x7FU || (byte(i) == 0xC2U && byte(i + 1) >= 0x80U && byte(i + 1) < 0xA0U);
        // Marks that turn or hide what is beside them: U+00AD, U+061C, U+200B … U+200F, U+2028 … U+202E, U+2060 …
        // U+206F, U+FEFF, U+E0000 … U+E007F.
        const bool hidden =
            (byte(i) == 0xC2U && byte(i + 1) == 0xADU) || (byte(i) == 0xD8U && byte(i + 1) == 0x9CU) ||
            (byte(i) == 0xE2U && byte(i + 1) == 0x80U && byte(i + 2) >= 0x8BU && byte(i + 2) <= 0x8FU) ||
            (byte(i) == 0xE2U && byte(i + 1) == 0x80U && byte(i + 2) >= 0xA8U && byte(i + 2) <= 0xAEU) ||
            (byte(i) == 0xE2U && byte(i + 1) == 0x81U && byte(i + 2) >= 0xA0U && byte(i + 2) <= 0xAFU) ||
            (byte(i) == 0xEFU && byte(i + 1) == 0xBBU && byte(i + 2) == 0xBFU) ||
            (byte(i) == 0xF3U && byte(i + 1) == 0xA0U && (byte(i + 2) == 0x80U || byte(i + 2) == 0x81U));
        if (control || hidden)
            return fail(faults, path, "this text has a character that cannot be seen",
                        "type it anew: letters, digits and blanks");
    }
    if (characters > longest_name)
        return fail(faults, path,
                    "this text has " + std::to_string(characters) + " characters; " + std::to_string(longest_name) +
                        " are allowed");
    value = text;
    return true;
}
std::string Form<std::string>::write(const std::string& value) { return detail::quoted(value); }
Checked Form<std::string>::measures(const std::string&) { return {}; }
Shape Form<std::string>::shape() { return {Shape::Kind::text, "a text"}; }

bool Form<std::vector<std::string>>::read(const Entry& entry, const std::string& path, std::vector<std::string>& value,
                                          Faults& faults) {
    return each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        std::string text;
        if (!Form<std::string>::read(element, place, text, faults)) return false;
        value.push_back(std::move(text));
        return true;
    });
}
std::string Form<std::vector<std::string>>::write(const std::vector<std::string>& value) {
    std::vector<std::string> written;
    for (const std::string& text : value) written.push_back(detail::quoted(text));
    return list_of(written);
}
Checked Form<std::vector<std::string>>::measures(const std::vector<std::string>&) { return {}; }
Shape Form<std::vector<std::string>>::shape() {
    return with_parts(Shape::Kind::one_or_list, "a name, or a list of them", {Form<std::string>::shape()});
}

bool Form<Gauge>::read(const Entry& entry, const std::string& path, Gauge& value, Faults& faults) {
    const std::string* text = entry.text();
    if (!text) {
        detail::wrong_kind(entry, path, "a cable size", faults);
        faults.back().hint = "write it in quotes with its system, as in \"8 AWG\" or \"8 mm2\"";
        return false;
    }
    if (mentions_aluminium(*text)) return refuse_aluminium(path, faults);
    const auto gauge = parse_gauge(*text);
    if (!gauge) {
        detail::unreadable(path, gauge.reason(), faults);
        return false;
    }
    value = *gauge;
    return true;
}
std::string Form<Gauge>::write(const Gauge& value) { return detail::quoted(voltwright::show(value)); }
Checked Form<Gauge>::measures(const Gauge&) { return {}; }
Shape Form<Gauge>::shape() { return {Shape::Kind::gauge, "a cable size"}; }

// ---- studs ----------------------------------------------------------------------------------------------------------

namespace {

/// "5/16 in" as a length; nothing when it is no such fraction.
std::optional<Length> fraction_of_an_inch(std::string_view text) {
    const std::size_t bar = text.find('/');
    if (bar == std::string_view::npos) return {};
    int over = 0, under = 0;
    const auto first = std::from_chars(text.data(), text.data() + bar, over);
    const auto second = std::from_chars(text.data() + bar + 1, text.data() + text.size(), under);
    if (first.ec != std::errc() || first.ptr != text.data() + bar || second.ec != std::errc() || under < 1) return {};
    const std::string unit = lower(trimmed(text.substr(static_cast<std::size_t>(second.ptr - text.data()))));
    if (unit != "in" && unit != "inch") return {};
    return millimetres(254.0 * over / under / 10.0);
}

/// The diameter of "M8"; nothing when it is no such thread.
std::optional<Length> metric_thread(std::string_view text) {
    if (text.size() < 2 || (text[0] != 'M' && text[0] != 'm') || !is_digit(text[1])) return {};
    double number = 0;
    const auto [end, error] = std::from_chars(text.data() + 1, text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size()) return {};
    return millimetres(number);
}

}  // namespace

bool Form<Stud>::read(const Entry& entry, const std::string& path, Stud& value, Faults& faults) {
    const std::string* text = text_or_fault(entry, path, "a stud", "M8", faults);
    if (!text) return false;
    const std::string_view said = trimmed(*text);
    if (const auto thread = metric_thread(said)) {
        value = {*thread};
    } else if (const auto fraction = fraction_of_an_inch(said)) {
        value = {*fraction};
    } else if (const auto length = parse<Length>(said); length && length->half_width == Length{}) {
        value = {length->value};
    } else {
        return fail(faults, path, detail::quoted(*text) + " is no stud",
                    "its thread or its diameter, as in \"M8\", \"8 mm\" or \"5/16 in\"");
    }
    return true;
}
std::string Form<Stud>::write(const Stud& value) {
    return detail::quoted(voltwright::write(Spread<Length>{value.diameter}));
}
Checked Form<Stud>::measures(const Stud& value) { return {{Measure{value.diameter}}}; }
Shape Form<Stud>::shape() { return {Shape::Kind::stud, "the thread of a stud"}; }

// ---- time -----------------------------------------------------------------------------------------------------------

namespace {

/// Minutes since midnight of "8:30", "08:30", "24:00"; nothing when it is no time.
std::optional<int> minutes_of(std::string_view text) {
    text = trimmed(text);
    const std::size_t colon = text.find(':');
    if (colon < 1 || colon > 2 || text.size() != colon + 3) return {};
    int hour = 0, minute = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (i == colon) continue;
        if (!is_digit(text[i])) return {};
        int& part = i < colon ? hour : minute;
        part = part * 10 + (text[i] - '0');
    }
    if (minute > 59 || hour > 24 || (hour == 24 && minute > 0)) return {};
    return hour * 60 + minute;
}

std::string clock(ClockTime time) {
    char text[24];
    std::snprintf(text, sizeof text, "%02d:%02d", time.minutes / 60, time.minutes % 60);
    return text;
}

bool read_window(const Entry& entry, const std::string& path, ClockWindow& window, Faults& faults) {
    constexpr std::string_view example = "08:30-10:00";
    const std::string* text = text_or_fault(entry, path, "a time from and to", example, faults);
    if (!text) return false;
    for (const std::string_view dash : {"\u2013", "\u2014", "-", " to "}) {
        const std::size_t found = text->find(dash);
        if (found == std::string::npos) continue;
        const std::string_view all = *text;
        const auto from = minutes_of(all.substr(0, found)), to = minutes_of(all.substr(found + dash.size()));
        if (!from || !to) break;
        if (*from == 1440) return fail(faults, path, "nothing begins at 24:00", "write 00:00");
        if (*from == *to)
            return fail(faults, path, "this begins and ends at the same time", "the whole day is \"00:00-24:00\"");
        window = {{*from}, {*to}};
        return true;
    }
    const bool several = text->find_first_of(",;") != std::string::npos;
    return fail(faults, path, detail::quoted(*text) + " is no time from and to",
                several ? "write a list: [\"08:30-10:00\", \"16:00-17:30\"]"
                        : "hours and minutes of 24 hours, as in " + detail::quoted(example));
}

std::string window_text(const ClockWindow& window) {
    return detail::quoted(clock(window.from) + "-" + clock(window.to));
}

}  // namespace

bool Form<ClockTime>::read(const Entry& entry, const std::string& path, ClockTime& value, Faults& faults) {
    const std::string* text = text_or_fault(entry, path, "a time of day", "18:30", faults);
    if (!text) return false;
    const auto minutes = minutes_of(*text);
    if (!minutes)
        return fail(faults, path, detail::quoted(*text) + " is no time of day",
                    "hours and minutes of 24 hours, as in \"18:30\"");
    value = {*minutes};
    return true;
}
std::string Form<ClockTime>::write(const ClockTime& value) { return detail::quoted(clock(value)); }
Checked Form<ClockTime>::measures(const ClockTime&) { return {}; }
Shape Form<ClockTime>::shape() { return {Shape::Kind::clock, "a time of day"}; }

bool Form<std::vector<ClockWindow>>::read(const Entry& entry, const std::string& path, std::vector<ClockWindow>& value,
                                          Faults& faults) {
    if (entry.text() && lower(trimmed(*entry.text())) == "none") return true;
    return each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        ClockWindow window{};
        if (!read_window(element, place, window, faults)) return false;
        value.push_back(window);
        return true;
    });
}
std::string Form<std::vector<ClockWindow>>::write(const std::vector<ClockWindow>& value) {
    if (value.size() == 1) return window_text(value[0]);
    std::vector<std::string> written;
    for (const ClockWindow& window : value) written.push_back(window_text(window));
    return value.empty() ? "\"none\"" : list_of(written);
}
Checked Form<std::vector<ClockWindow>>::measures(const std::vector<ClockWindow>&) { return {}; }
Shape Form<std::vector<ClockWindow>>::shape() {
    return with_parts(Shape::Kind::any_of, "a time from and to, or a list of them, or \"none\"",
                      {with_parts(Shape::Kind::one_or_list, "a time from and to, or a list of them",
                                  {Shape{Shape::Kind::window, "a time from and to"}}),
                       with_words(Shape::Kind::word, "never", {"none"})});
}

bool Form<CalendarDate>::read(const Entry& entry, const std::string& path, CalendarDate& value, Faults& faults) {
    constexpr std::string_view example = "2026-09-14";
    CalendarDate date{};
    if (const auto* given = std::get_if<CalendarDate>(&entry.content)) {
        date = *given;
    } else if (const std::string* text = entry.text()) {
        const std::string_view t = trimmed(*text);
        bool good = t.size() == example.size();
        for (std::size_t i = 0; good && i < t.size(); ++i)
            good = is_digit(example[i]) ? is_digit(t[i]) : t[i] == example[i];
        if (!good)
            return fail(faults, path, detail::quoted(*text) + " is no date",
                        "year, month and day: " + std::string(example));
        const auto number = [&](std::size_t from, std::size_t count) {
            int n = 0;
            for (std::size_t i = from; i < from + count; ++i) n = n * 10 + (t[i] - '0');
            return n;
        };
        date = {number(0, 4), number(5, 2), number(8, 2)};
    } else {
        detail::wrong_kind(entry, path, "a date", faults);
        faults.back().hint = "year, month and day: " + std::string(example);
        return false;
    }
    constexpr std::array<int, 12> days = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    const bool leap = (date.year % 4 == 0 && date.year % 100 != 0) || date.year % 400 == 0;
    const bool month = date.month >= 1 && date.month <= 12;
    const int last = !month ? 0 : date.month == 2 && leap ? 29 : days[static_cast<std::size_t>(date.month - 1)];
    if (!month || date.day < 1 || date.day > last)
        return fail(faults, path, "there is no such day", "year, month and day: " + std::string(example));
    if (date.year < 1900 || date.year > 2200) return fail(faults, path, "this year is outside 1900 to 2200");
    value = date;
    return true;
}
std::string Form<CalendarDate>::write(const CalendarDate& value) {
    char text[40];
    std::snprintf(text, sizeof text, "%04d-%02d-%02d", value.year, value.month, value.day);
    return text;
}
Checked Form<CalendarDate>::measures(const CalendarDate&) { return {}; }
Shape Form<CalendarDate>::shape() { return {Shape::Kind::date, "a date"}; }

namespace {

constexpr int most_days = 366;

/// "2-4" or "3": the first and the last.
std::optional<std::pair<int, int>> days_between(std::string_view text) {
    text = trimmed(text);
    const auto number = [](std::string_view t) -> std::optional<int> {
        t = trimmed(t);
        if (t.empty() || t.size() > 6 || !std::all_of(t.begin(), t.end(), is_digit)) return {};
        int n = 0;
        for (const char c : t) n = n * 10 + (c - '0');
        return n;
    };
    for (const std::string_view dash : {"\u2013", "-"})
        if (const std::size_t found = text.find(dash); found != std::string_view::npos) {
            const auto first = number(text.substr(0, found)), last = number(text.substr(found + dash.size()));
            if (!first || !last) return {};
            return std::pair(*first, *last);
        }
    const auto only = number(text);
    if (!only) return {};
    return std::pair(*only, *only);
}

}  // namespace

bool Form<TripDays>::read(const Entry& entry, const std::string& path, TripDays& value, Faults& faults) {
    const bool good = each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        std::pair<int, int> days;
        if (const auto* number = std::get_if<std::int64_t>(&element.content)) {
            const int day = static_cast<int>(std::clamp<std::int64_t>(*number, -1, most_days + 1));
            days = {day, day};
        } else if (const std::string* text = element.text()) {
            const auto read = days_between(*text);
            if (!read)
                return fail(faults, place, detail::quoted(*text) + " names no days of the trip",
                            "as in \"2-4\", 3 or [1, 6]");
            days = *read;
        } else {
            detail::wrong_kind(element, place, "a day of the trip", faults);
            faults.back().hint = "as in \"2-4\", 3 or [1, 6]";
            return false;
        }
        if (days.first < 1 || days.second < 1 || days.first > most_days || days.second > most_days)
            return fail(faults, place, "the days of a trip are 1 to " + std::to_string(most_days));
        if (days.second < days.first) return fail(faults, place, "these days end before they begin");
        if (!value.days.empty() && days.first <= value.days.back())
            return fail(faults, place, "the days of a list rise, and each stands once");
        for (int day = days.first; day <= days.second; ++day) value.days.push_back(day);
        return true;
    });
    if (good && value.days.empty()) return fail(faults, path, "this list of days is empty", "as in [1, 6]");
    return good;
}
std::string Form<TripDays>::write(const TripDays& value) {
    std::vector<std::string> written;
    for (std::size_t i = 0; i < value.days.size();) {
        std::size_t last = i;
        while (last + 1 < value.days.size() && value.days[last + 1] == value.days[last] + 1) ++last;
        written.push_back(last == i
                              ? std::to_string(value.days[i])
                              : detail::quoted(std::to_string(value.days[i]) + "-" + std::to_string(value.days[last])));
        i = last + 1;
    }
    return written.size() == 1 ? written[0] : list_of(written);
}
Checked Form<TripDays>::measures(const TripDays&) { return {}; }
Shape Form<TripDays>::shape() { return {Shape::Kind::days, "days of the trip"}; }

// ---- a run ----------------------------------------------------------------------------------------------------------

bool Form<Somewhere>::read(const Entry& entry, const std::string& path, Somewhere& value, Faults& faults) {
    const std::string* text = text_or_fault(entry, path, "a place or a temperature", "40 degC", faults);
    if (!text) return false;
    if (begins_with_number(*text)) {
        Spread<Temperature> temperature{celsius(0.0)};
        if (!Form<Spread<Temperature>>::read(entry, path, temperature, faults)) return false;
        value = temperature;
        return true;
    }
    std::string place;
    if (!Form<std::string>::read(entry, path, place, faults)) return false;
    value = std::move(place);
    return true;
}
std::string Form<Somewhere>::write(const Somewhere& value) {
    if (const auto* place = std::get_if<std::string>(&value)) return detail::quoted(*place);
    return Form<Spread<Temperature>>::write(std::get<Spread<Temperature>>(value));
}
Checked Form<Somewhere>::measures(const Somewhere& value) {
    if (const auto* temperature = std::get_if<Spread<Temperature>>(&value)) return {{Measure{temperature->value}}};
    return {};
}
namespace {
Shape place_shape() {
    Shape shape = Form<std::string>::shape();
    shape.says = "a named place";
    shape.example = "\"engine bay\"";
    return shape;
}
}  // namespace

Shape Form<Somewhere>::shape() {
    return with_parts(Shape::Kind::any_of, "a named place, or a temperature",
                      {place_shape(), quantity(Dimension::temperature)});
}

bool Form<Way>::read(const Entry& entry, const std::string& path, Way& value, Faults& faults) {
    if (!entry.list() && !entry.section()) {
        Somewhere somewhere;
        if (!Form<Somewhere>::read(entry, path, somewhere, faults)) return false;
        value = std::move(somewhere);
        return true;
    }
    std::vector<WaySectionKeys> sections;
    if (!read_sections(entry, path, sections, faults)) return false;
    if (sections.empty())
        return fail(faults, path, "this list of places is empty", "as in [{ place = \"cabin\", length = \"2 m\" }]");
    std::vector<WaySection> way;
    for (WaySectionKeys& section : sections) way.push_back({std::move(section.place.value()), section.length.value()});
    value = std::move(way);
    return true;
}
std::string Form<Way>::write(const Way& value) {
    if (const auto* somewhere = std::get_if<Somewhere>(&value)) return Form<Somewhere>::write(*somewhere);
    std::vector<WaySectionKeys> sections;
    for (const WaySection& section : std::get<std::vector<WaySection>>(value))
        sections.push_back({section.place, section.length});
    return write_sections(sections);
}
Checked Form<Way>::measures(const Way& value) {
    if (const auto* somewhere = std::get_if<Somewhere>(&value)) return Form<Somewhere>::measures(*somewhere);
    return {};  // its sections have rows of their own
}
Shape Form<Way>::shape() {
    return with_parts(Shape::Kind::any_of, "a named place, a temperature, or one after the other with their lengths",
                      {place_shape(), quantity(Dimension::temperature),
                       with_parts(Shape::Kind::one_or_list, "places with their lengths",
                                  {section_shape<WaySectionKeys>("a place and a length")})});
}

bool Form<ReturnPath>::read(const Entry& entry, const std::string& path, ReturnPath& value, Faults& faults) {
    const std::string* text = text_or_fault(entry, path, "\"cable\", \"body\", \"frame\" or a measured resistance",
                                            example_of(Dimension::resistance), faults);
    if (!text) return false;
    if (begins_with_number(*text)) {
        Spread<Resistance> resistance{};
        if (!Form<Spread<Resistance>>::read(entry, path, resistance, faults)) return false;
        value = resistance;
        return true;
    }
    const std::string word = lower(trimmed(*text));
    if (word == "cable")
        value = ByCable{};
    else if (word == "body" || word == "frame")
        value = ByBody{word == "frame"};
    else
        return fail(
            faults, path, detail::quoted(*text) + " is no way back",
            word == "chassis" || word == "earth" || word == "ground"
                ? "write \"body\" where it is welded in one piece, \"frame\" for a bolted tub or a ladder frame"
                : "\"cable\", \"body\", \"frame\", or the measured resistance of the whole return, as in \"4 mOhm\"");
    return true;
}
std::string Form<ReturnPath>::write(const ReturnPath& value) {
    if (const auto* resistance = std::get_if<Spread<Resistance>>(&value))
        return Form<Spread<Resistance>>::write(*resistance);
    if (const auto* body = std::get_if<ByBody>(&value)) return body->frame ? "\"frame\"" : "\"body\"";
    return "\"cable\"";
}
Checked Form<ReturnPath>::measures(const ReturnPath& value) {
    if (const auto* resistance = std::get_if<Spread<Resistance>>(&value)) return {{Measure{resistance->value}}};
    return {};
}
Shape Form<ReturnPath>::shape() {
    return with_parts(
        Shape::Kind::any_of, "a word, or a resistance",
        {with_words(Shape::Kind::word, "a word", {"cable", "body", "frame"}), quantity(Dimension::resistance)});
}

namespace {
constexpr std::array<std::string_view, 4> insulations = {"pvc", "xlpe", "rubber", "silicone"};
}

bool Form<Insulation>::read(const Entry& entry, const std::string& path, Insulation& value, Faults& faults) {
    const std::string* text =
        text_or_fault(entry, path, "the temperature that the insulation is rated for", "105 degC", faults);
    if (!text) return false;
    if (mentions_aluminium(*text)) return refuse_aluminium(path, faults);
    const auto [rating, words] = split_words<Temperature>(*text);
    if (!rating) {
        detail::unreadable(path, rating.reason(), faults);
        return false;
    }
    if (rating->half_width > TemperatureRise{})
        return fail(faults, path, "the rating of an insulation has no spread", "as printed on it: \"105 degC\"");
    const std::string material = lower(words);
    if (!material.empty() && std::find(insulations.begin(), insulations.end(), material) == insulations.end()) {
        const auto near = nearest_word(material, insulations);
        return fail(faults, path, detail::quoted(words) + " is no insulation that is known",
                    near ? "did you mean \"" + std::string(*near) + "\"?"
                         : "one of " + alternatives(insulations) + ", or none");
    }
    value = {rating->value, material};
    return true;
}
std::string Form<Insulation>::write(const Insulation& value) {
    return detail::quoted(voltwright::write(Spread<Temperature>{value.rating}) +
                          (value.material.empty() ? "" : " " + value.material));
}
Checked Form<Insulation>::measures(const Insulation& value) { return {{Measure{value.rating}}}; }
Shape Form<Insulation>::shape() {
    Shape shape = quantity(Dimension::temperature);
    shape.says = "a temperature rating, with the material if known";
    shape.words = {insulations.begin(), insulations.end()};
    shape.example = "\"105 degC xlpe\"";
    return shape;
}

bool Form<std::vector<JointChoice>>::read(const Entry& entry, const std::string& path, std::vector<JointChoice>& value,
                                          Faults& faults) {
    return each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        const std::string* text = text_or_fault(element, place, "a joint's name or its resistance", "0.3 mOhm", faults);
        if (!text) return false;
        if (begins_with_number(*text)) {
            Spread<Resistance> resistance{};
            if (!Form<Spread<Resistance>>::read(element, place, resistance, faults)) return false;
            value.emplace_back(resistance);
            return true;
        }
        std::string name;
        if (!Form<std::string>::read(element, place, name, faults)) return false;
        value.emplace_back(std::move(name));
        return true;
    });
}
std::string Form<std::vector<JointChoice>>::write(const std::vector<JointChoice>& value) {
    std::vector<std::string> written;
    for (const JointChoice& joint : value) {
        const auto* name = std::get_if<std::string>(&joint);
        written.push_back(name ? detail::quoted(*name)
                               : Form<Spread<Resistance>>::write(std::get<Spread<Resistance>>(joint)));
    }
    return list_of(written);
}
Checked Form<std::vector<JointChoice>>::measures(const std::vector<JointChoice>& value) {
    Checked checked;
    for (std::size_t i = 0; i < value.size(); ++i)
        if (const auto* resistance = std::get_if<Spread<Resistance>>(&value[i]))
            checked.push_back({Measure{resistance->value}, at(i)});
    return checked;
}
Shape Form<std::vector<JointChoice>>::shape() {
    Shape name = Form<std::string>::shape();
    name.example = "\"lug\"";
    Shape shape = with_parts(
        Shape::Kind::one_or_list, "joints by name or by resistance",
        {with_parts(Shape::Kind::any_of, "a joint's name, or a resistance", {name, quantity(Dimension::resistance)})});
    shape.example = "[\"lug\", \"lug\", \"0.3 mOhm\"]";
    return shape;
}

// ---- fuses ----------------------------------------------------------------------------------------------------------

namespace {

constexpr std::string_view fuse_example = "50 A SF30";

bool read_fuse(const Entry& entry, const std::string& path, FuseChoice& value, Faults& faults) {
    const std::string* text = text_or_fault(entry, path, "a fuse", fuse_example, faults);
    if (!text) return false;
    const auto [rating, family] = split_words<Current>(*text);
    if (!rating) {
        detail::unreadable(path, rating.reason(), faults);
        faults.back().hint = "rating and family, as in " + detail::quoted(fuse_example);
        return false;
    }
    if (family.empty())
        return fail(faults, path, "a fuse is written with its family; this is a rating alone",
                    "as in " + detail::quoted(fuse_example) + " or \"15 A blade\"");
    if (rating->half_width > Current{})
        return fail(faults, path, "the rating of a fuse has no spread", detail::quoted(fuse_example));
    Entry alone;
    alone.content = std::string(family);
    std::string name;
    if (!Form<std::string>::read(alone, path, name, faults)) return false;
    value = {*rating, std::move(name)};
    return true;
}

std::string fuse_text(const FuseChoice& fuse) { return detail::quoted(write(fuse.rating) + " " + fuse.family); }

Shape fuse_shape() {
    Shape shape{Shape::Kind::text, "a fuse: its rating and its family"};
    shape.example = "\"50 A SF30\"";
    return shape;
}

}  // namespace

bool Form<std::vector<FuseChoice>>::read(const Entry& entry, const std::string& path, std::vector<FuseChoice>& value,
                                         Faults& faults) {
    const bool good = each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        FuseChoice fuse{};
        if (!read_fuse(element, place, fuse, faults)) return false;
        value.push_back(std::move(fuse));
        return true;
    });
    if (good && value.empty())
        return fail(faults, path, "this list of fuses is empty", "leave the key out to take every usual rating");
    return good;
}
std::string Form<std::vector<FuseChoice>>::write(const std::vector<FuseChoice>& value) {
    std::vector<std::string> written;
    for (const FuseChoice& fuse : value) written.push_back(fuse_text(fuse));
    return list_of(written);
}
Checked Form<std::vector<FuseChoice>>::measures(const std::vector<FuseChoice>& value) {
    Checked checked;
    for (std::size_t i = 0; i < value.size(); ++i) checked.push_back({Measure{value[i].rating.value}, at(i)});
    return checked;
}
Shape Form<std::vector<FuseChoice>>::shape() { return with_parts(Shape::Kind::one_or_list, "fuses", {fuse_shape()}); }

bool Form<GivenFuses>::read(const Entry& entry, const std::string& path, GivenFuses& value, Faults& faults) {
    const auto read_one = [&](const Entry& one, const std::string& place, std::string end) {
        std::optional<FuseChoice> fuse;
        if (!one.text() || lower(trimmed(*one.text())) != "none") {
            FuseChoice choice{};
            if (!read_fuse(one, place, choice, faults)) return false;
            fuse = std::move(choice);
        }
        value.at.emplace_back(std::move(end), std::move(fuse));
        return true;
    };
    if (const Entry::Section* ends = entry.section()) {
        if (ends->empty())
            return fail(faults, path, "this names no end of the run", "as in { starter = \"50 A SF30\" }");
        bool good = true;
        for (const auto& [end, fuse] : *ends) {
            const std::string place = path + "." + end;
            Entry alone;
            alone.content = end;
            std::string name;
            good = Form<std::string>::read(alone, place, name, faults) && read_one(fuse, place, name) && good;
        }
        return good;
    }
    if (entry.list())
        return fail(faults, path, "a fuse, or fuses by the end of the run where they sit, are wanted; this is a list",
                    "as in { starter = \"50 A SF30\", battery = \"none\" }");
    return read_one(entry, path, {});
}
std::string Form<GivenFuses>::write(const GivenFuses& value) {
    const auto text = [](const std::optional<FuseChoice>& fuse) {
        return fuse ? fuse_text(*fuse) : std::string("\"none\"");
    };
    if (value.at.size() == 1 && value.at[0].first.empty()) return text(value.at[0].second);
    std::string result = "{";
    for (std::size_t i = 0; i < value.at.size(); ++i) {
        const auto& [end, fuse] = value.at[i];
        const bool bare = std::all_of(end.begin(), end.end(), [](char c) {
            return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '-';
        });
        result += (i ? ", " : " ") + (bare ? end : detail::quoted(end)) + " = " + text(fuse);
    }
    return result + " }";
}
Checked Form<GivenFuses>::measures(const GivenFuses& value) {
    Checked checked;
    for (const auto& [end, fuse] : value.at)
        if (fuse) checked.push_back({Measure{fuse->rating.value}, end.empty() ? std::string() : "." + end});
    return checked;
}
Shape Form<GivenFuses>::shape() {
    const Shape one = with_parts(Shape::Kind::any_of, "a fuse, or \"none\"",
                                 {fuse_shape(), with_words(Shape::Kind::word, "no fuse", {"none"})});
    return with_parts(Shape::Kind::any_of, "a fuse, or fuses by the end of the run where they sit",
                      {one, with_parts(Shape::Kind::named, "fuses by the end of the run", {one})});
}

bool Form<SizesChoice>::read(const Entry& entry, const std::string& path, SizesChoice& value, Faults& faults) {
    if (!entry.list()) {
        if (entry.text() && begins_with_number(*entry.text())) {
            Gauge gauge{};
            if (!Form<Gauge>::read(entry, path, gauge, faults)) return false;
            value = std::vector<Gauge>{gauge};
            return true;
        }
        const auto series = detail::read_word(entry, path, Words<SizeSeries>::all, faults);
        if (series)
            value = static_cast<SizeSeries>(*series);
        else
            faults.back().hint = "\"awg\", \"metric\", or a list of sizes, as in [\"8 AWG\", \"16 mm2\"]";
        return series.has_value();
    }
    std::vector<Gauge> sizes;
    const bool good = each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        Gauge gauge{};
        if (!Form<Gauge>::read(element, place, gauge, faults)) return false;
        if (std::find(sizes.begin(), sizes.end(), gauge) != sizes.end())
            return fail(faults, place, "this size stands in the list twice");
        sizes.push_back(gauge);
        return true;
    });
    if (good && sizes.empty())
        return fail(faults, path, "this list of sizes is empty", "\"awg\", \"metric\", or [\"8 AWG\", \"16 mm2\"]");
    value = std::move(sizes);
    return good;
}
std::string Form<SizesChoice>::write(const SizesChoice& value) {
    if (const auto* series = std::get_if<SizeSeries>(&value)) return detail::quoted(voltwright::show(*series));
    std::vector<std::string> written;
    for (const Gauge& gauge : std::get<std::vector<Gauge>>(value)) written.push_back(Form<Gauge>::write(gauge));
    return list_of(written);
}
Checked Form<SizesChoice>::measures(const SizesChoice&) { return {}; }
Shape Form<SizesChoice>::shape() {
    return with_parts(
        Shape::Kind::any_of, "a usual series, or the sizes that the shop has",
        {Form<SizeSeries>::shape(), with_parts(Shape::Kind::one_or_list, "sizes", {Form<Gauge>::shape()})});
}

// ---- what is drawn --------------------------------------------------------------------------------------------------

bool Form<Draw>::read(const Entry& entry, const std::string& path, Draw& value, Faults& faults) {
    return read_either<Power, Current, Resistance>(entry, path, value, faults);
}
std::string Form<Draw>::write(const Draw& value) { return write_either(value); }
Checked Form<Draw>::measures(const Draw& value) { return {{measure_of(value)}}; }
Shape Form<Draw>::shape() {
    return {Shape::Kind::quantity,
            "a power, a current or a resistance",
            {Dimension::power, Dimension::current, Dimension::resistance}};
}

bool Form<DailyUse>::read(const Entry& entry, const std::string& path, DailyUse& value, Faults& faults) {
    return read_either<Charge, Energy>(entry, path, value, faults);
}
std::string Form<DailyUse>::write(const DailyUse& value) { return write_either(value); }
Checked Form<DailyUse>::measures(const DailyUse& value) { return {{measure_of(value)}}; }
Shape Form<DailyUse>::shape() {
    return {Shape::Kind::quantity, "ampere-hours at 12 V, or watt-hours", {Dimension::charge, Dimension::energy}};
}

bool Form<InrushKeys>::read(const Entry& entry, const std::string& path, InrushKeys& value, Faults& faults) {
    if (!entry.section()) {
        detail::wrong_kind(entry, path, "a current and its time in braces", faults);
        faults.back().hint = "as in { current = \"20 A\", time = \"0.2 s\" }";
        return false;
    }
    const std::size_t before = faults.size();
    read_section(entry, path, keys_of<InrushKeys>(), &value, faults);
    return faults.size() == before;
}
std::string Form<InrushKeys>::write(const InrushKeys& value) { return write_inline(keys_of<InrushKeys>(), &value); }
Checked Form<InrushKeys>::measures(const InrushKeys&) { return {}; }
Shape Form<InrushKeys>::shape() { return section_shape<InrushKeys>("a current and its time"); }

bool Form<std::vector<RatedKeys>>::read(const Entry& entry, const std::string& path, std::vector<RatedKeys>& value,
                                        Faults& faults) {
    if (!entry.list() && !entry.section()) {
        detail::wrong_kind(entry, path, "one or two ratings in braces", faults);
        faults.back().hint = "as in [{ around = \"25 degC\", a_day = \"22 Ah\" }]";
        return false;
    }
    if (!read_sections(entry, path, value, faults)) return false;
    if (value.empty())
        return fail(faults, path, "this list of ratings is empty", "leave the key out when nothing is known");
    if (value.size() > 2)
        return fail(faults, path, "one or two ratings are wanted; these are " + std::to_string(value.size()),
                    "keep the coldest and the hottest");
    return true;
}
std::string Form<std::vector<RatedKeys>>::write(const std::vector<RatedKeys>& value) { return write_sections(value); }
Checked Form<std::vector<RatedKeys>>::measures(const std::vector<RatedKeys>&) { return {}; }
Shape Form<std::vector<RatedKeys>>::shape() {
    return with_parts(Shape::Kind::one_or_list, "one or two ratings",
                      {section_shape<RatedKeys>("what it takes at one outside temperature")});
}

bool Form<std::vector<RestockKeys>>::read(const Entry& entry, const std::string& path, std::vector<RestockKeys>& value,
                                          Faults& faults) {
    return read_sections(entry, path, value, faults);
}
std::string Form<std::vector<RestockKeys>>::write(const std::vector<RestockKeys>& value) {
    return write_sections(value);
}
Checked Form<std::vector<RestockKeys>>::measures(const std::vector<RestockKeys>&) { return {}; }
Shape Form<std::vector<RestockKeys>>::shape() {
    return with_parts(Shape::Kind::one_or_list, "warm things put in",
                      {section_shape<RestockKeys>("what is put in, and when")});
}

// ---- meters ---------------------------------------------------------------------------------------------------------

namespace {

/// "0.5 % + 20 mV", "2 %", "20 mV".
template <class Q>
bool read_accuracy(const Entry& entry, const std::string& path, std::string_view example, Accuracy<Q>& value,
                   Faults& faults) {
    const std::string* text = text_or_fault(entry, path, "a meter's accuracy", example, faults);
    if (!text) return false;
    std::string_view rest = trimmed(*text);
    for (const std::string_view sign : {"\u00b1", "+-", "+/-"})  // "± 2 %" is how makers print it
        if (rest.substr(0, sign.size()) == sign) rest = trimmed(rest.substr(sign.size()));
    value = {ratio(0.0), Q{}};
    bool share = false, fixed = false;
    while (!rest.empty()) {
        const std::size_t plus = rest.find('+', 1);
        const std::string_view part = trimmed(rest.substr(0, plus));
        rest = plus == std::string_view::npos ? std::string_view{} : rest.substr(plus + 1);
        const auto as_share = parse<Ratio>(part);
        if (as_share && !share) {
            value.share = as_share->value;
            share = true;
            continue;
        }
        const auto as_fixed = parse<Q>(part);
        if (!as_fixed || fixed) {
            std::string hint = "a share of the reading and a fixed part, as in " + detail::quoted(example);
            if (share && !as_fixed)
                detail::unreadable(path, as_fixed.reason(), faults);
            else
                faults.push_back({path, detail::quoted(*text) + " is no accuracy", {}});
            faults.back().hint = std::move(hint);
            return false;
        }
        value.fixed = as_fixed->value;
        fixed = true;
    }
    if (!share && !fixed) return fail(faults, path, "this text is empty", "as in " + detail::quoted(example));
    return true;
}

template <class Q>
std::string accuracy_text(const Accuracy<Q>& value) {
    const std::string share = write(Spread<Ratio>{value.share}), fixed = write(Spread<Q>{value.fixed});
    if (!(value.fixed > Q{})) return detail::quoted(share);
    return detail::quoted(value.share > ratio(0.0) ? share + " + " + fixed : fixed);
}

template <class Q>
Shape accuracy_shape() {
    return {Shape::Kind::quantity,
            "a share of the reading, a fixed part, or both with + between",
            {Dimension::ratio, dimension<Q>()}};
}

}  // namespace

bool Form<Accuracy<Voltage>>::read(const Entry& entry, const std::string& path, Accuracy<Voltage>& value,
                                   Faults& faults) {
    return read_accuracy(entry, path, "0.5 % + 20 mV", value, faults);
}
std::string Form<Accuracy<Voltage>>::write(const Accuracy<Voltage>& value) { return accuracy_text(value); }
Checked Form<Accuracy<Voltage>>::measures(const Accuracy<Voltage>& value) {
    return {{Measure{value.share}}, {Measure{value.fixed}}};
}
Shape Form<Accuracy<Voltage>>::shape() { return accuracy_shape<Voltage>(); }

bool Form<Accuracy<Current>>::read(const Entry& entry, const std::string& path, Accuracy<Current>& value,
                                   Faults& faults) {
    return read_accuracy(entry, path, "2 %", value, faults);
}
std::string Form<Accuracy<Current>>::write(const Accuracy<Current>& value) { return accuracy_text(value); }
Checked Form<Accuracy<Current>>::measures(const Accuracy<Current>& value) {
    return {{Measure{value.share}}, {Measure{value.fixed}}};
}
Shape Form<Accuracy<Current>>::shape() { return accuracy_shape<Current>(); }

// ---- sections inside values -------------------------------------------------------------------------------------------

namespace {

template <class Section>
void check_all(const std::vector<Section>& value, const std::string& path, Faults& faults) {
    for (std::size_t i = 0; i < value.size(); ++i) check_section(keys_of<Section>(), &value[i], at(path, i), faults);
}

}  // namespace

void check_inside(const Way& value, const std::string& path, Faults& faults) {
    const auto* parts = std::get_if<std::vector<WaySection>>(&value);
    if (!parts) return;
    std::vector<WaySectionKeys> keys;
    for (const WaySection& part : *parts) keys.push_back({part.place, part.length});
    check_all(keys, path, faults);
}
void check_inside(const InrushKeys& value, const std::string& path, Faults& faults) {
    check_section(keys_of<InrushKeys>(), &value, path, faults);
}
void check_inside(const std::vector<RatedKeys>& value, const std::string& path, Faults& faults) {
    check_all(value, path, faults);
}
void check_inside(const std::vector<RestockKeys>& value, const std::string& path, Faults& faults) {
    check_all(value, path, faults);
}

}  // namespace voltwright

#include "voltwright/profile/formats/reading.hpp"

#include "voltwright/units/parse.hpp"
#include "voltwright/units/scan.hpp"

#include <cstdio>
#include <utility>

namespace voltwright::formats {

namespace {

constexpr std::size_t longest_list = 366;

}  // namespace

std::string toml_quoted(std::string_view text) {
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

std::string list_of(std::span<const std::string> written) {
    std::string text = "[";
    for (std::size_t i = 0; i < written.size(); ++i) text += (i ? ", " : "") + written[i];
    return text + "]";
}

bool begins_with_number(std::string_view text) {
    text = without_spaces_around(text);
    for (const std::string_view sign : {"+", "-", "\u2212"})
        if (text.substr(0, sign.size()) == sign) {
            text.remove_prefix(sign.size());
            break;
        }
    if (!text.empty() && text.front() == '.') text.remove_prefix(1);
    return !text.empty() && is_digit(text.front());
}

std::string alternatives(std::span<const std::string_view> words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i) text += i + 1 == words.size() ? " or " : ", ";
        text += "\"" + std::string(words[i]) + "\"";
    }
    return text;
}

bool fail(Faults& faults, const std::string& path, std::string what, std::string hint) {
    faults.push_back({path, std::move(what), std::move(hint)});
    return false;
}

void wrong_kind(const Entry& entry, const std::string& path, std::string_view wanted, Faults& faults) {
    faults.push_back({path, std::string(wanted) + " is wanted; this is " + std::string(kind_of(entry)), {}});
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
                      "write it in quotes, as in " + toml_quoted(example)});
}

void unreadable(const std::string& path, const Unreadable& reason, Faults& faults) {
    faults.push_back({path, reason.why, reason.hint});
}

const std::string* text_or_fault(const Entry& entry, const std::string& path, std::string_view wanted,
                                 std::string_view example, Faults& faults) {
    if (!entry.text()) no_quantity(entry, path, wanted, example, faults);
    return entry.text();
}

bool each_element(const Entry& entry, const std::string& path, Faults& faults,
                  const std::function<bool(const Entry& element, const std::string& path)>& visit) {
    const Entry::List* list = entry.list();
    if (!list) return visit(entry, path);
    if (list->size() > longest_list)
        return fail(
            faults, path,
            "a list may have " + std::to_string(longest_list) + " things; this has " + std::to_string(list->size()));
    bool good = true;
    for (std::size_t i = 0; i < list->size(); ++i) good = visit((*list)[i], path_to(path, i)) && good;
    return good;
}

Shape quantity_shape(Dimension dimension) { return {Shape::Kind::quantity, name_of(dimension), {dimension}}; }

Shape with_parts(Shape::Kind kind, std::string_view says, std::vector<Shape> parts) {
    Shape shape{kind, says};
    shape.parts = std::move(parts);
    return shape;
}

Shape with_words(std::string_view says, std::vector<std::string_view> words) {
    Shape shape{Shape::Kind::word, says};
    shape.words = std::move(words);
    return shape;
}

}  // namespace voltwright::formats

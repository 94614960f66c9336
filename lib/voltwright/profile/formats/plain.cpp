#include "voltwright/profile/formats/plain.hpp"

#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/units/characters.hpp"
#include "voltwright/units/scan.hpp"

#include <algorithm>
#include <limits>
#include <utility>

namespace voltwright {

using namespace formats;

namespace {

constexpr std::size_t longest_name = 80;  ///< characters

}  // namespace

bool Format<int>::read(const Entry& entry, const std::string& path, int& value, Faults& faults) {
    const auto* number = std::get_if<std::int64_t>(&entry.content);
    if (!number) {
        wrong_kind(entry, path, "a whole number", faults);
        const std::string* text = entry.text();
        if (text && !without_spaces_around(*text).empty() && std::all_of(text->begin(), text->end(), is_digit))
            faults.back().hint = "without quotes: " + *text;
        return false;
    }
    if (*number < std::numeric_limits<int>::min() || *number > std::numeric_limits<int>::max())
        return fail(faults, path, std::to_string(*number) + " is too large a number");
    value = static_cast<int>(*number);
    return true;
}
std::string Format<int>::write(const int& value) { return std::to_string(value); }
Checked Format<int>::measures(const int& value) { return {{amount(value)}}; }
Shape Format<int>::shape() { return {Shape::Kind::whole, "a whole number"}; }

bool Format<bool>::read(const Entry& entry, const std::string& path, bool& value, Faults& faults) {
    if (const bool* truth = std::get_if<bool>(&entry.content)) {
        value = *truth;
        return true;
    }
    wrong_kind(entry, path, "true or false", faults);
    if (entry.text()) faults.back().hint = "write true or false, without quotes";
    return false;
}
std::string Format<bool>::write(const bool& value) { return value ? "true" : "false"; }
Checked Format<bool>::measures(const bool&) { return {}; }
Shape Format<bool>::shape() { return {Shape::Kind::flag, "true or false"}; }

bool Format<std::string>::read(const Entry& entry, const std::string& path, std::string& value, Faults& faults) {
    if (!entry.text()) {
        wrong_kind(entry, path, "a text", faults);
        return false;
    }
    const std::string_view text = without_spaces_around(*entry.text());
    if (text.empty()) return fail(faults, path, "this text is empty");
    for (std::size_t at = 0; at < text.size();) {
        const Character next = character_at(text, at);
        if (next.bytes > 0 && cannot_be_seen(next.code))
            return fail(faults, path, "this text has a character that cannot be seen",
                        "type it anew: letters, digits and blanks");
        at += std::max<std::size_t>(next.bytes, 1);
    }
    const std::size_t characters = characters_in(text);
    if (characters > longest_name)
        return fail(faults, path,
                    "this text has " + std::to_string(characters) + " characters; " + std::to_string(longest_name) +
                        " are allowed");
    value = text;
    return true;
}
std::string Format<std::string>::write(const std::string& value) { return toml_quoted(value); }
Checked Format<std::string>::measures(const std::string&) { return {}; }
Shape Format<std::string>::shape() { return {Shape::Kind::text, "a text"}; }

bool Format<std::vector<std::string>>::read(const Entry& entry, const std::string& path,
                                            std::vector<std::string>& value, Faults& faults) {
    return each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        std::string text;
        if (!Format<std::string>::read(element, place, text, faults)) return false;
        value.push_back(std::move(text));
        return true;
    });
}
std::string Format<std::vector<std::string>>::write(const std::vector<std::string>& value) {
    std::vector<std::string> written;
    for (const std::string& text : value) written.push_back(toml_quoted(text));
    return list_of(written);
}
Checked Format<std::vector<std::string>>::measures(const std::vector<std::string>&) { return {}; }
Shape Format<std::vector<std::string>>::shape() {
    return with_parts(Shape::Kind::one_or_list, "a name, or a list of them", {Format<std::string>::shape()});
}

}  // namespace voltwright

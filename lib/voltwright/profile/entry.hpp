#pragma once

#include "voltwright/profile/values.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace voltwright {

/// Where something stands in the profile's text: line and column from 1, columns in characters. Nothing is line 0.
struct TextPlace {
    int line = 0;
    int column = 0;
    int length = 1;  ///< characters, on that line
};

/// The profile as it was written, before it means anything: a tree of named things, in the order of the file.
struct Entry {
    struct Named;
    using List = std::vector<Entry>;
    using Section = std::vector<Named>;

    std::variant<std::string, std::int64_t, double, bool, CalendarDate, List, Section> content;
    TextPlace place;      ///< of the value
    TextPlace key_place;  ///< of the key it belongs to, if any
    /// How it was said when not in the file: `--set trip.days=12`.
    std::string said;

    [[nodiscard]] const std::string* text() const;
    [[nodiscard]] const List* list() const;
    [[nodiscard]] List* list();
    [[nodiscard]] const Section* section() const;
    [[nodiscard]] Section* section();
    /// The entry of that name in a section, or nullptr.
    [[nodiscard]] const Entry* find(std::string_view name) const;
    [[nodiscard]] Entry* find(std::string_view name);
};

/// One of a section. Not a std::pair: that one asks about Entry's constructors before it is complete itself.
struct Entry::Named {
    std::string first;
    Entry second;
    Named(std::string name, Entry entry) : first(std::move(name)), second(std::move(entry)) {}
};

inline const std::string* Entry::text() const { return std::get_if<std::string>(&content); }
inline const Entry::List* Entry::list() const { return std::get_if<List>(&content); }
inline Entry::List* Entry::list() { return std::get_if<List>(&content); }
inline const Entry::Section* Entry::section() const { return std::get_if<Section>(&content); }
inline Entry::Section* Entry::section() { return std::get_if<Section>(&content); }

/// An entry that is a text and stands nowhere in a file.
Entry text_entry(std::string_view words);

/// "a text", "a whole number", "a list": what was written, for an error that says what was expected instead.
std::string_view kind_of(const Entry& entry);

/// The entry at a path such as `run[1].where[0].place`, or the nearest one around it that exists.
const Entry& nearest(const Entry& root, std::string_view path);

/// `run[1].length` of `run[1]` and `length`; the name alone at the top.
std::string path_to(const std::string& path, std::string_view name);

/// `drives[1]` of `drives` and 1.
std::string path_to(const std::string& path, std::size_t index);

}  // namespace voltwright

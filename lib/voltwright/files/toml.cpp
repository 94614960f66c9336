#include "voltwright/files/toml.hpp"

#include "voltwright/units/characters.hpp"
#include "voltwright/files/lines.hpp"

#include <algorithm>
#include <tuple>

// The only source that knows toml++. Version 3.3 asserts on a line of a lone `[`; without the assertion it reports the
// right error. It also runs into undefined behaviour on a character beyond ASCII outside quotes, and into the end of
// the stack on very deep names: preflight() keeps both away.
#define TOML_ASSERT(expr) static_cast<void>(0)
#undef TOML_HEADER_ONLY
#define TOML_HEADER_ONLY 1
#undef TOML_SHARED_LIB
#define TOML_EXCEPTIONS 0
#define TOML_ENABLE_FORMATTERS 0
#define TOML_ENABLE_WINDOWS_COMPAT 0
#include <toml++/toml.h>

namespace voltwright {

namespace {

class Conversion {
public:
    explicit Conversion(std::string_view text) : text_(text) {}

    Entry section(const toml::table& table) {
        Entry::Section entries;
        entries.reserve(table.size());
        for (auto&& [key, node] : table) {
            Entry made = entry(node);
            made.key_place = place(key.source());
            entries.emplace_back(std::string(key.str()), std::move(made));
        }
        // A table has them in the order of the alphabet.
        std::stable_sort(entries.begin(), entries.end(), [](const auto& a, const auto& b) {
            const auto where = [](const auto& named) {
                return std::tuple(named.second.key_place.line, named.second.key_place.column);
            };
            return where(a) < where(b);
        });
        return {std::move(entries), place(table.source()), {}, {}};
    }

    std::vector<TomlError> refused;

private:
    TextPlace place(const toml::source_region& region) const {
        const int line = static_cast<int>(region.begin.line), column = static_cast<int>(region.begin.column);
        int length = 1;
        if (region.end.line == region.begin.line) {
            length = static_cast<int>(region.end.column) - column;
        } else {
            // What runs over several lines is marked to the end of its first.
            length = static_cast<int>(characters_in(line_of(text_, line))) - column + 1;
        }
        return {line, column, std::max(length, 1)};
    }

    Entry entry(const toml::node& node) {
        if (const toml::table* table = node.as_table()) return section(*table);
        Entry made{std::string(), place(node.source()), {}, {}};
        if (const toml::array* array = node.as_array()) {
            Entry::List list;
            list.reserve(array->size());
            for (const toml::node& element : *array) list.push_back(entry(element));
            made.content = std::move(list);
        } else if (const auto* text = node.as_string()) {
            made.content = text->get();
        } else if (const auto* whole = node.as_integer()) {
            made.content = whole->get();
        } else if (const auto* number = node.as_floating_point()) {
            made.content = number->get();
        } else if (const auto* truth = node.as_boolean()) {
            made.content = truth->get();
        } else if (const auto* date = node.as_date()) {
            made.content = CalendarDate{date->get().year, date->get().month, date->get().day};
        } else if (node.is_time()) {
            refused.push_back({made.place, "a time of day is written in quotes, as hours and minutes", "\"08:30\""});
        } else {
            refused.push_back({made.place, "a date stands without a time of day", "2026-09-14"});
        }
        return made;
    }

    std::string_view text_;
};

/// The reader's own words, less what it was busy with.
std::string words_of(const toml::parse_error& error) {
    std::string_view words = error.description();
    if (words.substr(0, 5) == "Error")
        if (const std::size_t colon = words.find(": "); colon != std::string_view::npos) words.remove_prefix(colon + 2);
    return "this is not TOML: " + std::string(words);
}

}  // namespace

Result<Entry, std::vector<TomlError>> read_toml(std::string_view text) {
    const toml::parse_result parsed = toml::parse(text);
    if (!parsed) {
        const toml::source_position at = parsed.error().source().begin;
        return std::vector<TomlError>{
            {{static_cast<int>(at.line), static_cast<int>(at.column), 1}, words_of(parsed.error()), {}}};
    }
    Conversion conversion(text);
    Entry root = conversion.section(parsed.table());
    root.place = {};
    if (!conversion.refused.empty()) return std::move(conversion.refused);
    return root;
}

}  // namespace voltwright

#include "bad_table.hpp"

#include <algorithm>

namespace voltwright::generate_tables {

void bad(const std::string& file, toml::source_position at, const std::string& what) {
    const auto number = [](toml::source_index n) { return std::to_string(std::max<toml::source_index>(n, 1)); };
    throw BadTable(file + ":" + number(at.line) + ":" + number(at.column) + ": error: " + what);
}

std::string quoted(std::string_view word) { return "'" + std::string(word) + "'"; }

std::string list_of(const std::set<std::string_view>& words) {
    std::string list;
    for (const std::string_view word : words) list += (list.empty() ? "" : ", ") + std::string(word);
    return list;
}

}  // namespace voltwright::generate_tables

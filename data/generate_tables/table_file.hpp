#pragma once

#include "bad_table.hpp"
#include "kinds.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace voltwright::generate_tables {

struct Column {
    std::string name, unit;
    const toml::node* node;
    const Member* member;  // nullptr for a temperature class
};

/// A file of data/ that has been read, its head and its columns found sound. The rows are as they stand in it.
struct TableFile {
    std::string file, name;  ///< the name is the path below data/ without its ending
    std::string text;
    toml::table root = {};
    std::string_view kind_name = {};
    const Kind* kind = nullptr;
    const toml::table* source = nullptr;
    const toml::table* constants = nullptr;  ///< nullptr where the kind has none
    std::vector<Column> columns = {};        ///< in the order in which they are declared

    TableFile(const std::string& path);
    TableFile(const TableFile&) = delete;  // it points into itself
    TableFile& operator=(const TableFile&) = delete;

    [[noreturn]] void fail(const toml::node& at, const std::string& what) const { bad(file, at.source().begin, what); }
    /// The member's column, or nullptr where the table has none.
    [[nodiscard]] const Column* column_of(const Member& member) const;
    [[nodiscard]] const toml::array& rows() const;
};

/// A text that is there and not empty.
std::string text_in(const TableFile& table, const toml::table& from, std::string_view key, const std::string& whose);

/// `Standing::read`, as `status` says it.
std::string standing_in(const TableFile& table, const toml::table& from, const std::string& whose);

/// Refuses a key that is none of these.
void allow_only(const TableFile& table, const toml::table& part, const std::set<std::string_view>& known,
                const std::string& where);

}  // namespace voltwright::generate_tables

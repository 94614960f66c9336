#pragma once

#include "table_file.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace voltwright::generate_tables {

/// A cell as C++, and as a number where it has an order.
struct Cell {
    std::string code;
    std::optional<double> order = {};
};

/// A text as C++ has it, in quotes.
std::string literal(std::string_view text);

/// A number in the column's unit, or `{ value = 200, unit = "mm" }` where the source prints another.
Cell quantity_cell(const TableFile& table, const toml::node& given, std::string unit, const Member& member);

/// What a member holds in one row.
Cell cell_of(const TableFile& table, const Member& member, const std::string& unit, const toml::node& node);

/// What a member holds in every row, from [constants].
Cell constant_cell(const TableFile& table, const Member& member);

/// The source of a row: the table's, unless the row has its own.
Cell source_cell(const TableFile& table, const toml::table& row);

}  // namespace voltwright::generate_tables

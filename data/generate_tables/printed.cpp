#include "printed.hpp"

#include "cells.hpp"

#include <algorithm>
#include <cctype>
#include <iterator>

namespace voltwright::generate_tables {

namespace {

/// Where a line and a column of a text stand in its bytes; columns count code points.
std::size_t byte_at(const std::string& text, toml::source_position place) {
    std::size_t at = 0;
    for (toml::source_index line = 1; line < place.line; ++line) at = text.find('\n', at) + 1;
    for (toml::source_index i = 1; i < place.column; ++i) {
        ++at;
        while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80) ++at;
    }
    return at;
}

/// The figure with the very digits that the table has: 0.780, not 0.78.
std::string as_printed(const TableFile& table, const toml::node& node) {
    if (const auto* words = node.as_string()) return words->get();
    if (const auto* answer = node.as_boolean()) return answer->get() ? "yes" : "no";
    if (const auto* own = node.as_table())
        return as_printed(table, *own->get("value")) + " " + own->at("unit").value_or(std::string());
    const std::size_t first = byte_at(table.text, node.source().begin);
    return table.text.substr(first, byte_at(table.text, {node.source().begin.line, node.source().end.column}) - first);
}

std::string remark_of(const TableFile& table, const toml::table& row) {
    std::string remark;
    if (row.contains("status")) {
        remark = text_in(table, row, "status", "this row");
        std::replace(remark.begin(), remark.end(), '_', ' ');
    }
    for (const std::string_view key : {"cite", "note"})
        if (row.contains(key)) remark += (remark.empty() ? "" : "; ") + text_in(table, row, key, "this row");
    return remark;
}

std::string identifier_of(std::string name) {
    std::replace_if(
        name.begin(), name.end(), [](char c) { return !std::isalnum(static_cast<unsigned char>(c)); }, '_');
    return name;
}

std::string arrays_of(const TableFile& table, const std::string& identifier) {
    std::vector<Column> shown;
    std::copy_if(table.columns.begin(), table.columns.end(), std::back_inserter(shown),
                 [](const Column& column) { return !column.member || column.member->printed; });
    std::string columns, cells, notes;
    for (const Column& column : shown) columns += "{" + literal(column.name) + ", " + literal(column.unit) + "}, ";
    for (const toml::node& node : table.rows()) {
        const toml::table& row = *node.as_table();
        cells += "    ";
        for (const Column& column : shown) {
            const toml::node* value = row.get(column.name);
            cells += literal(value ? as_printed(table, *value) : "") + ", ";
        }
        cells += "\n";
        notes += "    " + literal(remark_of(table, row)) + ",\n";
    }
    return "constexpr PrintedTable::Column columns_" + identifier + "[] = {" + columns + "};\n" +
           "constexpr std::string_view cells_" + identifier + "[] = {\n" + cells + "};\n" +
           "constexpr std::string_view notes_" + identifier + "[] = {\n" + notes + "};\n\n";
}

std::string list_entry(const TableFile& table, const std::string& identifier) {
    const auto head = [&](std::string_view key) { return literal(text_in(table, table.root, key, "the table")); };
    const auto of_source = [&](std::string_view key) {
        return literal(text_in(table, *table.source, key, "[source]"));
    };
    return "    {" + literal(table.name) + ", " + head("title") + ", " + head("applies") + ",\n     Source{" +
           of_source("id") + ", " + of_source("cite") + ", " + standing_in(table, *table.source, "[source]") + ", " +
           literal(table.name) + ", 0, " + (table.source->contains("note") ? of_source("note") : "\"\"") + "},\n     " +
           of_source("terms") + ", " + of_source("entered") + ",\n     columns_" + identifier + ", cells_" +
           identifier + ", notes_" + identifier + "},\n";
}

}  // namespace

void print(const TableFile& table, PrintedTables& printed) {
    const std::string identifier = identifier_of(table.name);
    printed.arrays += arrays_of(table, identifier);
    printed.list += list_entry(table, identifier);
}

}  // namespace voltwright::generate_tables

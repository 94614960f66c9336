#include "rows.hpp"

#include "cells.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace voltwright::generate_tables {

namespace {

using Cells = std::map<std::string_view, Cell>;  // by member

/// What the rows before have left to be held against.
struct Before {
    std::map<std::pair<std::string, std::string_view>, double> last;  // of rising and falling members, by group
    std::map<std::string, double> in_class;
};

void check_keys(const TableFile& table, const toml::table& row) {
    static const std::set<std::string_view> extras = {"id", "status", "cite", "note"};
    for (auto&& [key, value] : row) {
        const std::string_view name = key.str();
        const bool column = std::any_of(table.columns.begin(), table.columns.end(),
                                        [&](const Column& one) { return one.name == name; });
        if (!column && !extras.contains(name))
            bad(table.file, key.source().begin, quoted(name) + " is not among the table's columns");
    }
}

Cells cells_of(const TableFile& table, const toml::table& row) {
    Cells cells;
    for (const Member& member : table.kind->members) {
        if (member.where == Where::constant) {
            cells[member.name] = constant_cell(table, member);
        } else if (member.holds == Holds::source) {
            cells[member.name] = source_cell(table, row);
        } else if (member.in_columns()) {
            const Column* column = table.column_of(member);
            const toml::node* value = column ? row.get(column->name) : nullptr;
            if (!value && member.where == Where::column) table.fail(row, "this row has no " + quoted(member.called()));
            cells[member.name] = value ? cell_of(table, member, column->unit, *value) : Cell{"{}"};
        }
    }
    return cells;
}

void check_identity(const TableFile& table, const toml::table& row, const Cells& cells, TypedRows& typed) {
    const Kind& kind = *table.kind;
    std::string identity(table.kind_name);
    for (const std::string_view member : kind.unique) identity += " " + cells.at(member).code;
    const std::string here = table.file + ":" + std::to_string(row.source().begin.line);
    const auto [first, fresh] = typed.seen.emplace(identity, here);
    if (!fresh) table.fail(row, "this row is there already, at " + first->second);
    if (kind.unique.size() == 1) typed.names[table.kind_name].insert(cells.at(kind.unique.front()).code);
    if (!kind.refers.empty())
        typed.references.push_back({table.file, row.source().begin, kind.refers_to, cells.at(kind.refers).code});
}

/// From row to row. Rows of one group need not stand together to be in order.
void check_steps(const TableFile& table, const toml::table& row, const Cells& cells, Before& before) {
    const std::string_view within = table.kind->within;
    const std::string group = within.empty() ? "" : cells.at(within).code;
    const auto step = [&](std::string_view member, bool rises) {
        const auto& order = cells.at(member).order;
        if (!order) return;
        const auto last = before.last.find({group, member});
        if (last != before.last.end() && !(rises ? *order > last->second : *order < last->second))
            table.fail(*row.get(member), quoted(member) + " is to " + (rises ? "rise" : "fall") + " from row to row");
        before.last[{group, member}] = *order;
    };
    for (const std::string_view member : table.kind->rising) step(member, true);
    for (const std::string_view member : table.kind->falling) step(member, false);
}

/// Within a row.
void check_ordered(const TableFile& table, const toml::table& row, const Cells& cells) {
    for (const Names& names : table.kind->ordered)
        for (std::size_t i = 1; i < names.size(); ++i) {
            const auto &low = cells.at(names[i - 1]).order, &high = cells.at(names[i]).order;
            if (low && high && *low > *high)
                table.fail(row, quoted(names[i - 1]) + " is not to be more than " + quoted(names[i]));
        }
}

std::string row_text(const Kind& kind, const Cells& cells) {
    std::string out = std::string(kind.row) + "{";
    for (const Member& member : kind.members) {
        if (out.back() != '{') out += ", ";
        out += "." + std::string(member.name) + " = " + cells.at(member.name).code;
    }
    return out + "}";
}

/// One row a temperature class that the table has a figure for.
void type_classes(const TableFile& table, const toml::table& row, Cells cells, Before& before,
                  std::vector<std::string>& rows) {
    const std::vector<Member>& members = table.kind->members;
    const auto member_that = [&](Holds holds) {
        return std::find_if(members.begin(), members.end(), [&](const Member& one) { return one.holds == holds; });
    };
    const Member &class_ = *member_that(Holds::class_), &figure = *member_that(Holds::class_cell);
    std::optional<double> last;
    for (const Column& column : table.columns) {
        const toml::node* value = column.member ? nullptr : row.get(column.name);
        if (!value) continue;
        const Cell cell =
            quantity_cell(table, *value, column.unit, {.name = column.name, .dimension = figure.dimension});
        if (last && *cell.order < *last) table.fail(*value, "a higher temperature class is not to carry less");
        double& above = before.in_class[column.name];
        if (*cell.order < above) table.fail(*value, "a thicker conductor is not to carry less");
        last = above = *cell.order;
        cells[class_.name] = {"celsius(" + column.name + ".0)"};
        cells[figure.name] = cell;
        rows.push_back(row_text(*table.kind, cells));
    }
    if (!last) table.fail(row, "this row has no figures");
}

}  // namespace

void type_rows(const TableFile& table, TypedRows& typed) {
    Before before;
    std::vector<std::string>& rows = typed.rows[table.kind->span];
    for (const toml::node& node : table.rows()) {
        const toml::table& row = *node.as_table();
        check_keys(table, row);
        const Cells cells = cells_of(table, row);
        check_identity(table, row, cells, typed);
        check_steps(table, row, cells, before);
        check_ordered(table, row, cells);
        if (table.kind->by_class)
            type_classes(table, row, cells, before, rows);
        else
            rows.push_back(row_text(*table.kind, cells));
    }
}

void check_references(const TypedRows& typed) {
    for (const Reference& reference : typed.references) {
        const auto names = typed.names.find(reference.kind);
        if (names == typed.names.end() || !names->second.contains(reference.name))
            bad(reference.file, reference.at,
                reference.name + " is no name in a table of the kind " + quoted(reference.kind));
    }
}

}  // namespace voltwright::generate_tables

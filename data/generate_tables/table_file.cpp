#include "table_file.hpp"

#include "units.hpp"

#include <algorithm>
#include <fstream>
#include <sstream>

namespace voltwright::generate_tables {

namespace {

const std::set<std::string_view> standings = {"read", "read_weak", "memory", "recomputed", "common_practice"};

const toml::table& part_of(const TableFile& table, std::string_view key) {
    const toml::node* node = table.root.get(key);
    if (!node) bad(table.file, {}, "the table has no [" + std::string(key) + "]");
    if (!node->is_table()) table.fail(*node, quoted(key) + " is to be a table");
    return *node->as_table();
}

void read_text(TableFile& table) {
    std::ifstream in(table.file, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    if (!in) bad(table.file, {}, "this file cannot be read");
    table.text = text.str();
    try {
        table.root = toml::parse(table.text, std::string_view(table.file));
    } catch (const toml::parse_error& error) {
        bad(table.file, error.source().begin, std::string(error.description()));
    }
}

// ---- the head -------------------------------------------------------------------------------------------------------

void read_kind(TableFile& table) {
    const std::string kind = text_in(table, table.root, "kind", "the table");
    const auto found = kinds().find(kind);
    if (found == kinds().end()) table.fail(*table.root.get("kind"), quoted(kind) + " is no kind of table");
    table.kind_name = found->first;
    table.kind = &found->second;
}

void read_source(TableFile& table) {
    table.source = &part_of(table, "source");
    allow_only(table, *table.source, {"id", "cite", "status", "terms", "entered", "note"}, "[source]");
    for (const std::string_view key : {"id", "cite", "terms", "entered"})
        text_in(table, *table.source, key, "[source]");
    standing_in(table, *table.source, "[source]");
}

void read_constants(TableFile& table) {
    std::set<std::string_view> known;
    for (const Member& member : table.kind->members)
        if (member.where == Where::constant) known.insert(member.called());
    if (!known.empty()) table.constants = &part_of(table, "constants");
    if (const toml::node* given = table.root.get("constants"))
        if (given->is_table()) allow_only(table, *given->as_table(), known, "the constants of this kind of table");
}

void read_head(TableFile& table) {
    read_kind(table);
    allow_only(table, table.root, {"kind", "title", "applies", "source", "constants", "columns", "row"}, "a table");
    text_in(table, table.root, "title", "the table");
    text_in(table, table.root, "applies", "the table");
    read_source(table);
    read_constants(table);
}

// ---- the columns ----------------------------------------------------------------------------------------------------

bool names_a_class(std::string_view name) {
    return !name.empty() && name.size() <= 3 && name.find_first_not_of("0123456789") == std::string_view::npos;
}

std::string_view class_dimension(const Kind& kind) {
    for (const Member& member : kind.members)
        if (member.holds == Holds::class_cell) return member.dimension;
    return {};
}

void take_columns(TableFile& table, const toml::table& declared) {
    const std::vector<Member>& members = table.kind->members;
    for (auto&& [key, value] : declared) {
        const auto* unit = value.as_string();
        if (!unit) table.fail(value, "the unit of a column is to be a text, \"\" for words");
        const std::string_view name = key.str();
        const auto member = std::find_if(members.begin(), members.end(),
                                         [&](const Member& m) { return m.in_columns() && m.called() == name; });
        const bool known = member != members.end();
        if (!known && !(table.kind->by_class && names_a_class(name)))
            bad(table.file, key.source().begin, quoted(name) + " is no column of this kind of table");
        table.columns.push_back({std::string(name), unit->get(), &value, known ? &*member : nullptr});
    }
    std::sort(table.columns.begin(), table.columns.end(), [](const Column& a, const Column& b) {
        const auto at = [](const Column& c) { return c.node->source().begin; };
        return at(a) < at(b);
    });
    for (const Member& member : members)
        if (member.in_columns() && member.where == Where::column && !table.column_of(member))
            table.fail(declared, "the table has no column " + quoted(member.called()));
}

void check_units(const TableFile& table) {
    for (const Column& column : table.columns) {
        if (!column.member)
            unit_of(table.file, *column.node, column.unit, class_dimension(*table.kind), column.name);
        else if (column.member->holds == Holds::quantity)
            unit_of(table.file, *column.node, column.unit, column.member->dimension, column.name);
        else if (!column.unit.empty())
            table.fail(*column.node, quoted(column.name) + " holds no quantity: its unit is to be \"\"");
    }
}

/// Members that are held against each other stand in one unit.
void check_units_of_ordered(const TableFile& table) {
    for (const Names& names : table.kind->ordered) {
        std::vector<const Column*> among;
        for (const Column& column : table.columns)
            if (column.member && std::find(names.begin(), names.end(), column.member->name) != names.end())
                among.push_back(&column);
        for (const Column* column : among)
            for (const Column* other : among)
                if (column->unit != other->unit)
                    table.fail(*column->node,
                               quoted(column->name) + " and " + quoted(other->name) + " are to have the same unit");
    }
}

void check_classes(const TableFile& table, const toml::table& declared) {
    if (!table.kind->by_class) return;
    double last = 0;
    for (const Column& column : table.columns) {
        if (column.member) continue;
        if (std::stod(column.name) <= last)
            table.fail(*column.node, "the temperature classes are to rise from column to column");
        last = std::stod(column.name);
    }
    if (last == 0) table.fail(declared, "the table has no column for a temperature class, such as 105");
}

void read_columns(TableFile& table) {
    const toml::table& declared = part_of(table, "columns");
    take_columns(table, declared);
    check_units(table);
    check_units_of_ordered(table);
    check_classes(table, declared);
}

std::string name_of(const std::string& file) {
    const auto data = file.rfind("data/");
    std::string name = file.substr(data == std::string::npos ? 0 : data + 5);
    if (name.ends_with(".toml")) name.resize(name.size() - 5);
    return name;
}

}  // namespace

TableFile::TableFile(const std::string& path) : file(path), name(name_of(path)), text() {
    read_text(*this);
    read_head(*this);
    read_columns(*this);
}

const Column* TableFile::column_of(const Member& member) const {
    const auto found =
        std::find_if(columns.begin(), columns.end(), [&](const Column& column) { return column.member == &member; });
    return found == columns.end() ? nullptr : &*found;
}

const toml::array& TableFile::rows() const {
    const toml::node* node = root.get("row");
    if (!node) bad(file, {}, "the table has no [[row]]");
    if (!node->is_array()) fail(*node, "'row' is to be a list of rows");
    if (node->as_array()->empty()) fail(*node, "the table has no rows");
    for (const toml::node& row : *node->as_array())
        if (!row.is_table()) fail(row, "a row is to be a table");
    return *node->as_array();
}

std::string text_in(const TableFile& table, const toml::table& from, std::string_view key, const std::string& whose) {
    const toml::node* node = from.get(key);
    if (!node) table.fail(from, whose + " has no " + quoted(key));
    const auto* value = node->as_string();
    if (!value || value->get().empty()) table.fail(*node, quoted(key) + " is to be a text");
    return value->get();
}

std::string standing_in(const TableFile& table, const toml::table& from, const std::string& whose) {
    const std::string word = text_in(table, from, "status", whose);
    if (!standings.contains(word))
        table.fail(*from.get("status"), quoted(word) + " is no status; one of " + list_of(standings));
    return "Standing::" + word;
}

void allow_only(const TableFile& table, const toml::table& part, const std::set<std::string_view>& known,
                const std::string& where) {
    for (auto&& [key, value] : part)
        if (!known.contains(key.str()))
            bad(table.file, key.source().begin, quoted(key.str()) + " has no place in " + where);
}

}  // namespace voltwright::generate_tables

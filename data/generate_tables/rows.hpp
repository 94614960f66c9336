#pragma once

#include "table_file.hpp"

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright::generate_tables {

/// A name that has to be found among the rows of another kind.
struct Reference {
    std::string file;
    toml::source_position at;
    std::string_view kind;
    std::string name;
};

/// The rows of all tables so far, as C++.
struct TypedRows {
    std::map<std::string_view, std::vector<std::string>> rows;  // by span
    std::map<std::string, std::string> seen;                    // kind and identity: where
    std::map<std::string_view, std::set<std::string>> names;    // of rows with a text of their own, by kind
    std::vector<Reference> references;
};

/// Types the rows of a table: each with what it needs, once, and in order.
void type_rows(const TableFile& table, TypedRows& typed);

/// Refuses a name that no row of the kind it belongs to has.
void check_references(const TypedRows& typed);

}  // namespace voltwright::generate_tables

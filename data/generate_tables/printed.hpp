#pragma once

#include "table_file.hpp"

#include <string>

namespace voltwright::generate_tables {

/// The tables as somebody who holds the publication would want to see them, as C++: the arrays of each, and the list.
struct PrintedTables {
    std::string arrays, list;
};

void print(const TableFile& table, PrintedTables& printed);

}  // namespace voltwright::generate_tables

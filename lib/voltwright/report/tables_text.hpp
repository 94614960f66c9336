#pragma once

#include "voltwright/report/terminal.hpp"
#include "voltwright/tables/tables.hpp"

#include <string>

namespace voltwright {

/// All built-in tables: name, title, and how its source is known.
std::string list_tables(const Tables& tables, const Style& style);

/// One table as printed, with its units, what it applies to, where it comes from, and its notes. One that is wider than the
/// page is written row by row, a line for each column.
std::string show_table(const PrintedTable& table, const Style& style);

}  // namespace voltwright

#pragma once

#include "voltwright/tables/tables.hpp"

#include <string>

namespace voltwright {

/// `{"tables": [{name, title, applies, source}, …]}`
std::string list_tables_json(const Tables& tables);

/// The whole of one table: `{name, title, applies, source, terms, entered, columns, rows, notes}`. Cells are text, as
/// printed; a gap is null.
std::string show_table_json(const PrintedTable& table);

}  // namespace voltwright

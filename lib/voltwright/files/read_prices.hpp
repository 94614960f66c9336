#pragma once

#include "voltwright/files/document.hpp"
#include "voltwright/shopping/prices.hpp"
#include "voltwright/tables/tables.hpp"

#include <string>

namespace voltwright {

/// Reads a price list, TOML. Whatever is wrong with it is told at once, each fault at its place.
Result<PriceList, Diagnostics> read_prices(const std::string& path, const Tables& tables = built_in_tables());

/// The same from a document that has been read.
PriceList read_prices(const Entry& root, const Tables& tables, Faults& faults);

}  // namespace voltwright

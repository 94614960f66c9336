#pragma once

#include "bad_table.hpp"

#include <string>
#include <string_view>

namespace voltwright::generate_tables {

/// What a printed unit stands for: the maker in units/quantities.hpp, and the C++ type that it gives.
struct Unit {
    std::string_view dimension, maker;
};

/// The unit of a column or of a figure; refused where it is none, or of another dimension.
const Unit& unit_of(const std::string& file, const toml::node& at, const std::string& printed,
                    std::string_view dimension, std::string_view column);

}  // namespace voltwright::generate_tables

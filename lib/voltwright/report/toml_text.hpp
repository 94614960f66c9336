#pragma once

#include <cstddef>
#include <string>
#include <string_view>

/// TOML as it is written.
namespace voltwright {

/// A long list stands with one element a line: a profile's lines have a limit, and eyes too.
std::string in_short_lines(const std::string& value, std::size_t columns);

/// A file in plain ASCII with the same values: what else stands in its texts is written as TOML's escapes.
std::string toml_in_ascii(std::string_view toml);

}  // namespace voltwright

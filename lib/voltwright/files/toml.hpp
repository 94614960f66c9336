#pragma once

#include "voltwright/profile/entry.hpp"
#include "voltwright/units/result.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// One thing that the TOML reader refuses.
struct TomlError {
    TextPlace place;
    std::string what, hint;
};

/// The tree of a TOML text that has been looked through: UTF-8, of a sane size and depth.
Result<Entry, std::vector<TomlError>> read_toml(std::string_view text);

}  // namespace voltwright

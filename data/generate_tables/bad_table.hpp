#pragma once

// Without this, toml++ 3.3 aborts on a lone bracket instead of reporting it.
#define TOML_ASSERT(x) static_cast<void>(0)
#include <toml++/toml.h>

#include <set>
#include <stdexcept>
#include <string>
#include <string_view>

namespace voltwright::generate_tables {

/// What stops the build, in the compiler's own form: `data/fuses/ratings.toml:12:14: error: …`.
struct BadTable : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// A place without a line, as of a file that cannot be opened, is told as the first one.
[[noreturn]] void bad(const std::string& file, toml::source_position at, const std::string& what);

/// "'cold'"
std::string quoted(std::string_view word);

/// "blade, bolted, post"
std::string list_of(const std::set<std::string_view>& words);

}  // namespace voltwright::generate_tables

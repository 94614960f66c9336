#pragma once

#include <string>

namespace voltwright {

/// The JSON Schema of the profile (Draft 2020-12), made from the key table, for editors that complete and check. A TOML
/// date counts as text. It accepts all that read_profile() accepts, but for the case of fixed words and for blanks where
/// nobody writes them; what only the whole profile can tell (a place that does not exist) it does not see.
std::string profile_schema();

}  // namespace voltwright

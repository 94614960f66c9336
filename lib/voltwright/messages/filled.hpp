#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace voltwright {

/// The words for a name in braces; empty where there is nothing to say of it.
using WordsOf = std::function<std::optional<std::string>(std::string_view name)>;

/// A sentence with its gaps filled: `{name}` is replaced by its words. What stands in `<…>` is left out where a name in it
/// has none. Throws std::logic_error for a name without words elsewhere.
std::string filled(std::string_view sentence, const WordsOf& words_of);

}  // namespace voltwright

#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace voltwright {

/// The words for a name in braces; empty where there is nothing to say of it.
using WordsOf = std::function<std::optional<std::string>(std::string_view name)>;

/// Whether what begins so is spoken with a vowel: "an 80 A fuse".
bool wants_an(std::string_view words);

/// A sentence with its gaps filled: `{name}` is replaced by its words. What stands in `<…>` is left out where a name in it
/// has none, and an "a" before a gap becomes "an" where its words want that. Throws std::logic_error for a name without words elsewhere.
std::string filled(std::string_view sentence, const WordsOf& words_of);

}  // namespace voltwright

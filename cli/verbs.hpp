#pragma once

#include "cli/verb.hpp"

#include <optional>

namespace voltwright::cli {

/// All verbs, in the order of the help.
std::span<const Verb* const> verbs();

const Verb* find_verb(std::string_view name);

std::string_view title_of(Group group);

/// The options that many verbs share, as far as `verb` has them.
std::vector<Option> common_options(const Verb& verb);

/// `voltwright --help`
std::string help();
/// `voltwright plan --help`
std::string help(const Verb& verb);

}  // namespace voltwright::cli

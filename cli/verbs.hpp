#pragma once

#include "cli/verb.hpp"

#include <optional>

namespace voltwright::cli {

/// All verbs, in the order of the help.
std::span<const Verb* const> verbs();

const Verb* find_verb(std::string_view name);

inline constexpr Group groups[] = {Group::plan, Group::change, Group::fit, Group::look};

std::string_view title_of(Group group);

/// The options that many verbs share, as far as `verb` has them.
std::vector<Option> common_options(const Verb& verb);

/// What the program is for, in one line.
inline constexpr std::string_view purpose = "Plans the second 12 V system of a vehicle: cable, fuse, drop, night.";

struct Example {
    std::string_view command, what;
};
inline constexpr Example examples[] = {
    {"voltwright new -o camp.toml", "a profile to begin with; change it in any editor"},
    {"voltwright plan camp.toml --set run.feed.length=\"9 m\"", "the plan, had the feed to go the long way round"},
    {"voltwright replan camp.toml --set trip.days=12 --set trip.high=\"38 degC\"",
     "a longer and hotter trip beside the one in the file"}};

/// `PROFILE [OTHER]`, after the verb's name
std::string usage_of(const Verb& verb);
/// `--format text|json`, `-o FILE`
std::string usage_of(const Option& option);

/// `voltwright --help`
std::string help();
/// `voltwright plan --help`
std::string help(const Verb& verb);

}  // namespace voltwright::cli

#pragma once

#include "cli/verb.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace voltwright::cli {

/// What can be offered where a word is wanted.
struct Offer {
    enum class Kind {
        nothing,  ///< it is the user's own
        files,
        keys,  ///< KEY=VALUE of the profile
        words,
    };
    Kind kind = Kind::nothing;
    std::vector<std::string> words = {};  ///< no blanks in them
};

/// For the value of an option that takes one.
Offer offer_for(const Option& option);
Offer offer_for(const Argument& argument);

/// All options of a verb, its own, the common ones and `--help`.
std::vector<Option> options_of(const Verb& verb);

/// How an option can be written: `--run`, `-o`.
std::vector<std::string> spellings_of(const Option& option);

/// `plan --format`, `plan 1`: a verb with an option or with the number of an argument.
std::string place_of(const Verb& verb, std::string_view what);

/// How a shell writes text in single quotes.
struct Quoting {
    std::string_view escaped;  ///< each of these characters gets a backslash before it
    std::string_view quote;    ///< what a single quote is written as
};
inline constexpr Quoting posix_quoting{"", R"('\'')"}, fish_quoting{"\\", R"(\')"};

/// Text of ours within single quotes.
std::string quoted(std::string_view text, const Quoting& quoting);
/// Each of the words so, with a blank before it.
std::string quoted_list(const std::vector<std::string>& words, const Quoting& quoting);

/// A key that `--set` takes whatever the profile holds: those of the sections that are no lists.
struct SettableKey {
    std::string name;  ///< `battery.chemistry`
    std::string_view sentence;
    std::vector<std::string> values;  ///< all that it may be, where that can be listed
};
std::vector<SettableKey> settable_keys();

}  // namespace voltwright::cli

#include "voltwright/profile/formats/word.hpp"

#include "voltwright/units/parse.hpp"
#include "voltwright/units/scan.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace voltwright::formats {

namespace {

/// What people say for the word that is meant.
struct Alias {
    std::string_view typed, word, hint;
};
constexpr Alias aliases[] = {
    {"lifepo4", "lfp", "write \"lfp\": lithium iron phosphate"},
    {"lifepo", "lfp", "write \"lfp\": lithium iron phosphate"},
    {"lithium", "lfp", "write \"lfp\" if it is lithium iron phosphate; no other lithium battery is planned with"},
    {"li-ion", "lfp", "write \"lfp\" if it is lithium iron phosphate; no other lithium battery is planned with"},
    {"lead-acid", "agm", "say which: \"flooded\", \"agm\" or \"gel\""},
    {"lead acid", "agm", "say which: \"flooded\", \"agm\" or \"gel\""},
    {"lead", "agm", "say which: \"flooded\", \"agm\" or \"gel\""},
    {"sealed", "agm", "say which: \"agm\" or \"gel\""},
    {"vrla", "agm", "say which: \"agm\" or \"gel\""},
    {"wet", "flooded", "write \"flooded\""},
    {"variable", "smart", "write \"smart\""},
    {"fixed", "plain", "write \"plain\""},
    {"standard", "plain", "write \"plain\""},
    {"on", "idling", "say which: \"idling\" or \"driving\""},
    {"running", "idling", "say which: \"idling\" or \"driving\""},
};

}  // namespace

std::optional<std::size_t> read_word(const Entry& entry, const std::string& path,
                                     std::span<const std::string_view> words, Faults& faults) {
    const std::string* text = entry.text();
    if (!text) {
        wrong_kind(entry, path, "one of " + alternatives(words), faults);
        return {};
    }
    const std::string typed = in_lower_case(without_spaces_around(*text));
    for (std::size_t i = 0; i < words.size(); ++i)
        if (words[i] == typed) return i;

    std::string hint = "one of " + alternatives(words);
    const auto alias = std::find_if(std::begin(aliases), std::end(aliases), [&](const Alias& one) {
        return one.typed == typed && std::find(words.begin(), words.end(), one.word) != words.end();
    });
    if (alias != std::end(aliases))
        hint = alias->hint;
    else if (const auto near = nearest_word(typed, words))
        hint = "did you mean \"" + std::string(*near) + "\"?";
    faults.push_back({path, toml_quoted(*text) + " is not known here", std::move(hint)});
    return {};
}

}  // namespace voltwright::formats

#include "voltwright/report/listing.hpp"

#include "voltwright/profile/complete.hpp"
#include "voltwright/profile/section.hpp"
#include "voltwright/report/section_words.hpp"
#include "voltwright/report/terminal.hpp"
#include "voltwright/report/toml_text.hpp"

#include <algorithm>

namespace voltwright {

namespace {

std::size_t longest_name(const SectionRow& section) {
    std::size_t longest = 0;
    for (const Key& key : section.keys) longest = std::max(longest, key.name.size());
    return longest;
}

std::string absence_of(const Key& key) {
    if (const auto* absent = std::get_if<Absent>(&key.fallback)) return std::string(absent->words);
    if (const auto* rule = std::get_if<ByRule>(&key.fallback)) return std::string(rule->words);
    return "not given";
}

/// Whether complete() filled a key in. `said` is the entry as it was given, none where it was not.
bool is_defaulted(const Key& key, SectionView said) { return !said || !key.given(said); }

/// An entry of a section as it was given, or none for one that complete() added.
SectionView as_given(const SectionRow& section, const Profile& given, std::size_t i) {
    return i < section.count(given) ? section.look(given, i) : SectionView();
}

std::string line_of(const Key& key, SectionView said, SectionView filled, std::size_t longest) {
    constexpr std::size_t line = 100, least_for_value = 40;
    const std::string value = key.written(filled);
    if (value.empty()) return "# " + std::string(key.name) + ": " + absence_of(key) + "\n";
    const std::size_t columns = line - std::min<std::size_t>(longest + 3, line - least_for_value);
    return padded(key.name, longest) + " = " + in_short_lines(value, columns) +
           (is_defaulted(key, said) ? "  # " + default_words(key) : "") + "\n";
}

}  // namespace

std::string list_profile(const Profile& given, const Tables& tables) {
    const Profile completed = complete(given, tables);
    std::string result;
    for (const SectionRow& section : sections()) {
        const std::size_t count = section.count(completed), longest = longest_name(section);
        if (count == 0) result += "\n" + comment("no " + header_of(section) + ": " + std::string(section.sentence));
        for (std::size_t i = 0; i < count; ++i) {
            if (!section.name.empty()) result += (result.empty() ? "" : "\n") + header_of(section) + "\n";
            for (const Key& key : section.keys)
                result += line_of(key, as_given(section, given, i), section.look(completed, i), longest);
        }
    }
    return result;
}

std::vector<std::string> defaulted_keys(const Profile& given, const Tables& tables) {
    const Profile completed = complete(given, tables);
    std::vector<std::string> keys;
    for (const SectionRow& section : sections())
        for (std::size_t i = 0; i < section.count(completed); ++i) {
            std::string path(section.name);
            if (section.many) path += "." + entry_name(completed, section, i);
            if (!path.empty()) path += ".";
            const SectionView said = as_given(section, given, i), filled = section.look(completed, i);
            for (const Key& key : section.keys)
                if (!key.written(filled).empty() && is_defaulted(key, said))
                    keys.push_back(path + std::string(key.name));
        }
    return keys;
}

}  // namespace voltwright

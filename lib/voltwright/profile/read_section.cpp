#include "voltwright/profile/read_section.hpp"

#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/profile/section.hpp"
#include "voltwright/units/parse.hpp"

#include <algorithm>

namespace voltwright {

// ---- unknown keys ---------------------------------------------------------------------------------------------------

namespace {

/// What a path is called in words: `[[run]]`, `inrush`, the top of the profile.
std::string words_for(const std::string& path) {
    if (path.empty()) return "the top of the profile";
    const std::size_t point = path.rfind('.');
    std::string name = point == std::string::npos ? path : path.substr(point + 1);
    name = name.substr(0, name.find('['));
    const SectionRow* row = point == std::string::npos ? find_section(name) : nullptr;
    return row ? header_of(*row) : "`" + name + "`";
}

std::string names_of(std::span<const Key> keys) {
    std::string names;
    for (const Key& key : keys) names += (names.empty() ? "" : ", ") + std::string(key.name);
    return names;
}

/// The section that a key belongs to, when there is just one.
const SectionRow* only_section_with(std::string_view name) {
    const SectionRow* found = nullptr;
    for (const SectionRow& row : sections())
        for (const Key& key : row.keys)
            if (key.name == name) {
                if (found) return nullptr;
                found = &row;
            }
    return found;
}

}  // namespace

std::string_view unknown_key(const std::string& path, std::string_view name, std::span<const Key> keys,
                             Faults& faults) {
    std::vector<std::string_view> known;
    for (const Key& key : keys) known.push_back(key.name);
    const auto near = nearest_word(name, known);
    std::string hint = "its keys are " + names_of(keys);
    if (near)
        hint = "did you mean `" + std::string(*near) + "`?";
    else if (const SectionRow* other = only_section_with(name))
        hint = other->name.empty() ? "it belongs at the top of the profile, above the first section"
                                   : "it is a key of " + header_of(*other);
    faults.push_back(
        {path_to(path, name), "`" + std::string(name) + "` is no key of " + words_for(path), std::move(hint), true});
    return near.value_or(std::string_view{});
}

// ---- what is not filled in ------------------------------------------------------------------------------------------

namespace {

bool is_empty(const Entry& entry) {
    const std::string* text = entry.text();
    return text && text->find_first_not_of(" \t") == std::string::npos;
}

/// The places of the empty texts in a value, as paths: itself, of a list, or by the user's own names. A section with rows
/// is asked about them one by one when it is read.
std::vector<std::string> empty_texts(const Entry& value, const std::string& path, const Key& key) {
    std::vector<std::string> found;
    if (is_empty(value)) found.push_back(path);
    if (const Entry::List* list = value.list())
        for (std::size_t i = 0; i < list->size(); ++i)
            if (is_empty((*list)[i])) found.push_back(path_to(path, i));
    const Entry::Section* section = value.section();
    if (!section) return found;
    const Shape shape = key.shape();
    const bool named = std::any_of(shape.parts.begin(), shape.parts.end(),
                                   [](const Shape& part) { return part.kind == Shape::Kind::named; });
    if (!named) return found;
    for (const auto& [name, inner] : *section)
        if (is_empty(inner)) found.push_back(path_to(path, name));
    return found;
}

/// `run.feed.length` of the `length` in the section `run[0]`, as `--set` would have it.
std::string spoken(const std::string& path, const Entry& section, std::string_view key) {
    std::string words;
    for (std::size_t i = 0; i < path.size(); ++i) {
        if (path[i] == '[') i = std::min(path.find(']', i), path.size());
        if (i < path.size() && path[i] != ']') words += path[i];
    }
    if (path.find('.') == std::string::npos && path.find('[') != std::string::npos) {
        const Entry* name = section.find("name");
        const bool named = name && name->text() && !is_empty(*name);
        if (!named) name = words == "run" ? section.find("to") : nullptr;
        if (name && name->text() && !is_empty(*name))
            words = path_to(
                words, !named && (*name->text() == "charger" || *name->text() == "relay") ? "feed" : *name->text());
    }
    return path_to(words, key);
}

/// Says of each empty text that something is due there; true when there was one.
bool asked_for(const Entry& value, const std::string& path, const Key& key, const Entry& section, Faults& faults) {
    const std::vector<std::string> empty = empty_texts(value, path, key);
    if (empty.empty()) return false;
    const std::string place_of_section = path.substr(0, path.size() - std::min(path.size(), key.name.size() + 1));
    const std::string words = spoken(place_of_section, section, key.name);
    for (const std::string& place : empty)
        faults.push_back(
            {place, "`" + words + "` is not filled in: " + std::string(key.found.empty() ? key.sentence : key.found),
             "write it as in " + example_of(key) +
                 (key.required() || !key.found.empty() ? "" : ", or leave the line out")});
    return true;
}

}  // namespace

// ---- a section ------------------------------------------------------------------------------------------------------

void read_key(const Key& key, const Entry& value, const std::string& path, const Entry& section_entry,
              SectionRef section, Faults& faults) {
    if (!asked_for(value, path, key, section_entry, faults)) key.read(value, path, section, faults);
}

void read_section(const Entry& entry, const std::string& path, std::span<const Key> keys, SectionRef section,
                  Faults& faults) {
    const Entry::Section* entries = entry.section();
    if (!entries) return formats::wrong_kind(entry, path, "a table of keys", faults);
    std::vector<std::string_view> met;
    for (const auto& [name, value] : *entries) {
        const auto key =
            std::find_if(keys.begin(), keys.end(), [&wanted = name](const Key& one) { return one.name == wanted; });
        if (key == keys.end()) {
            // What is probably meant is not called missing as well.
            met.push_back(unknown_key(path, name, keys, faults));
            continue;
        }
        met.push_back(key->name);
        read_key(*key, value, path_to(path, name), entry, section, faults);
    }
    for (const Key& key : keys)
        if (key.lacking(section) && std::find(met.begin(), met.end(), key.name) == met.end())
            faults.push_back(
                {path_to(path, key.name), "this " + words_for(path) + " has no `" + std::string(key.name) + "`",
                 "write " + std::string(key.name) + " = " + example_of(key) + ": " + std::string(key.sentence)});
}

}  // namespace voltwright

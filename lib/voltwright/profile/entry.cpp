#include "voltwright/profile/entry.hpp"

#include <charconv>
#include <optional>

namespace voltwright {

const Entry* Entry::find(std::string_view name) const {
    if (const Section* entries = section())
        for (const auto& [key, entry] : *entries)
            if (key == name) return &entry;
    return nullptr;
}

Entry* Entry::find(std::string_view name) { return const_cast<Entry*>(std::as_const(*this).find(name)); }

std::string_view kind_of(const Entry& entry) {
    struct Kind {
        std::string_view operator()(const std::string&) const { return "a text"; }
        std::string_view operator()(std::int64_t) const { return "a whole number"; }
        std::string_view operator()(double) const { return "a number"; }
        std::string_view operator()(bool truth) const { return truth ? "true" : "false"; }
        std::string_view operator()(const CalendarDate&) const { return "a date"; }
        std::string_view operator()(const Entry::List&) const { return "a list"; }
        std::string_view operator()(const Entry::Section&) const { return "a table of keys"; }
    };
    return std::visit(Kind{}, entry.content);
}

namespace {

/// The number in `[12]` at the beginning of `path`, which loses it.
std::optional<std::size_t> take_index(std::string_view& path) {
    if (path.empty() || path.front() != '[') return {};
    const std::size_t end = path.find(']');
    if (end == std::string_view::npos) return {};
    std::size_t index = 0;
    const auto read = std::from_chars(path.data() + 1, path.data() + end, index);
    if (read.ec != std::errc{} || read.ptr != path.data() + end) return {};
    path.remove_prefix(end + 1);
    return index;
}

/// The entry of a section that a path begins with: a name in quotes may hold points of its own, so the longest counts.
const Entry::Named* longest_match(const Entry::Section& section, std::string_view path) {
    const Entry::Named* best = nullptr;
    for (const auto& named : section) {
        const std::string_view name = named.first;
        if (path.substr(0, name.size()) != name) continue;
        const std::string_view rest = path.substr(name.size());
        if (!rest.empty() && rest.front() != '.' && rest.front() != '[') continue;
        if (!best || name.size() > best->first.size()) best = &named;
    }
    return best;
}

}  // namespace

const Entry& nearest(const Entry& root, std::string_view path) {
    const Entry* entry = &root;
    while (!path.empty()) {
        if (path.front() == '.') path.remove_prefix(1);
        if (const Entry::List* list = entry->list()) {
            const auto index = take_index(path);
            if (!index || *index >= list->size()) return *entry;
            entry = &(*list)[*index];
        } else if (const Entry::Section* section = entry->section()) {
            const auto* match = longest_match(*section, path);
            if (!match) return *entry;
            path.remove_prefix(match->first.size());
            entry = &match->second;
        } else {
            return *entry;
        }
    }
    return *entry;
}

Entry text_entry(std::string_view words) { return {std::string(words), {}, {}, {}}; }

std::string path_to(const std::string& path, std::string_view name) {
    return path.empty() ? std::string(name) : path + "." + std::string(name);
}

std::string path_to(const std::string& path, std::size_t index) { return path + "[" + std::to_string(index) + "]"; }

}  // namespace voltwright

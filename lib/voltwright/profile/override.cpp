#include "voltwright/profile/override.hpp"

#include "voltwright/profile/section.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/scan.hpp"

#include <algorithm>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace voltwright {

namespace {

/// A value on its way to its place. What is wrong is told of the whole path.
struct Override {
    std::string_view path;
    Entry value;
};

Fault wrong_path(const Override& change, std::string what, std::string hint) {
    return {std::string(change.path), std::move(what), std::move(hint), true};
}

void mark_as_said(Entry& entry, const std::string& said) {
    entry.said = said;
    if (Entry::List* list = entry.list())
        for (Entry& element : *list) mark_as_said(element, said);
    if (Entry::Section* section = entry.section())
        for (auto& [name, value] : *section) mark_as_said(value, said);
}

std::string first_of(const std::vector<std::string>& names) {
    constexpr std::size_t most = 12;
    std::string text;
    for (std::size_t i = 0; i < std::min(names.size(), most); ++i) text += (i ? ", " : "") + names[i];
    return names.size() > most ? text + " …" : text;
}

const Key* find_key(std::span<const Key> keys, std::string_view name) {
    const auto found = std::find_if(keys.begin(), keys.end(), [&](const Key& key) { return key.name == name; });
    return found == keys.end() ? nullptr : &*found;
}

std::vector<std::string_view> key_names(std::span<const Key> keys) {
    std::vector<std::string_view> names;
    for (const Key& key : keys) names.push_back(key.name);
    return names;
}

/// `trip` and `days` of `trip.days`; the rest is empty where there is no point.
struct Split {
    std::string_view head, rest;
};
Split split_path(std::string_view path) {
    const std::size_t point = path.find('.');
    return {path.substr(0, point), point == std::string_view::npos ? std::string_view{} : path.substr(point + 1)};
}

// ---- in a section ---------------------------------------------------------------------------------------------------

void place(Entry& section, std::string_view name, const Entry& value) {
    if (Entry* old = section.find(name))
        *old = value;
    else
        section.section()->emplace_back(std::string(name), value);
}

Entry empty_section(const Override& change) {
    Entry section;
    section.content = Entry::Section{};
    section.said = change.value.said;
    return section;
}

/// The first shape of that kind among a shape and its parts.
std::optional<Shape> part_of_kind(const Shape& shape, Shape::Kind kind) {
    if (shape.kind == kind) return shape;
    for (const Shape& part : shape.parts)
        if (auto found = part_of_kind(part, kind)) return found;
    return {};
}

std::optional<Fault> put(const Override& change, Entry& section, std::span<const Key> keys, std::string_view path);

/// A key of a table that is itself a value: `fridge.inrush.current`, `run.feed.fuse.starter`.
std::optional<Fault> put_inside(const Override& change, Entry& section, const Key& key, std::string_view rest) {
    const Shape shape = key.shape();
    const auto table = part_of_kind(shape, Shape::Kind::section);
    const auto named = part_of_kind(shape, Shape::Kind::named);
    const std::string name(key.name);
    if (!table && !named) return wrong_path(change, "`" + name + "` has no keys of its own", {});

    Entry* value = section.find(key.name);
    if (value && value->list()) {
        if (value->list()->size() != 1)
            return wrong_path(change, "`" + name + "` is a list of " + std::to_string(value->list()->size()),
                              "give the whole list: " + name + " = " + example_of(shape));
        value = &value->list()->front();
    }
    if (!value && !named && shape.kind != Shape::Kind::section)
        return wrong_path(change, "the profile has no `" + name + "` to change",
                          "give the whole: " + name + " = " + example_of(shape));
    if (value && !value->section())
        return wrong_path(change,
                          "`" + name + "` in the profile is " + std::string(kind_of(*value)) + ", no table of keys",
                          "give the whole: " + name + " = { … }");

    Entry made = empty_section(change);
    Entry& target = value ? *value : made;
    if (named)
        place(target, rest, change.value);
    else if (auto wrong = put(change, target, table->keys, rest))
        return wrong;
    if (!value) section.section()->emplace_back(name, std::move(made));
    return {};
}

std::optional<Fault> put(const Override& change, Entry& section, std::span<const Key> keys, std::string_view path) {
    const auto [name, rest] = split_path(path);
    const Key* key = find_key(keys, name);
    if (!key) {
        const std::vector<std::string_view> known = key_names(keys);
        const auto near = nearest_word(name, known);
        return wrong_path(change, "there is no key `" + std::string(name) + "`",
                          near ? "did you mean `" + std::string(*near) + "`?"
                               : "the keys are " + first_of({known.begin(), known.end()}));
    }
    if (!section.section()) return wrong_path(change, "what stands there in the profile is no table of keys", {});
    if (name.size() < path.size()) return put_inside(change, section, *key, rest);
    place(section, name, change.value);
    return {};
}

std::optional<Fault> put_in_section(const Override& change, Entry& root, const SectionRow& row, std::string_view rest) {
    Entry* section = root.find(row.name);
    if (section && !section->section())
        return wrong_path(change, "`" + std::string(row.name) + "` in the profile is no section",
                          "write it as [" + std::string(row.name) + "]");
    if (section) return put(change, *section, row.keys, rest);
    // Made only when the rest of the path is sound.
    Entry made = empty_section(change);
    if (auto wrong = put(change, made, row.keys, rest)) return wrong;
    root.section()->emplace_back(std::string(row.name), std::move(made));
    return {};
}

// ---- in a list ------------------------------------------------------------------------------------------------------

/// As entry_name() has it, for what has not been read yet.
std::string name_in_tree(const SectionRow& row, const Entry& entry, std::size_t index) {
    if (!row.name_of) return std::to_string(index + 1);
    Faults ignored;
    Profile alone;
    row.add(alone);
    for (const std::string_view key : {"name", "to", "on"})
        if (const Key* known = find_key(row.keys, key))
            if (const Entry* given = entry.find(key)) known->read(*given, {}, row.at(alone, 0), ignored);
    return entry_name(alone, row, 0);
}

/// The entries of a list that a path names: those of the longest name, for a name may hold points.
struct Named {
    Entry* entry = nullptr;
    std::size_t length = 0, count = 0;
};
Named named_in(Entry::List& list, const std::vector<std::string>& names, std::string_view rest) {
    Named found;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const std::string& name = names[i];
        if (name.empty() || rest.size() <= name.size() + 1 || rest[name.size()] != '.') continue;
        if (!same_word(rest.substr(0, name.size()), name) || name.size() < found.length) continue;
        found = {&list[i], name.size(), name.size() == found.length ? found.count + 1 : 1};
    }
    return found;
}

Fault none_of_that_name(const Override& change, const SectionRow& row, const std::vector<std::string>& names,
                        std::string_view rest) {
    const std::size_t last_point = rest.rfind('.');
    const std::string_view said = last_point == std::string_view::npos ? rest : rest.substr(0, last_point);
    const std::vector<std::string_view> known(names.begin(), names.end());
    const auto near = nearest_word(said, known);
    std::string hint = names.size() == 1 ? "there is only `" + names.front() + "`" : "there are " + first_of(names);
    if (near && last_point != std::string_view::npos)
        hint = "did you mean `" + std::string(row.name) + "." + std::string(*near) +
               std::string(rest.substr(last_point)) + "`?";
    return wrong_path(change, "there is no " + header_of(row) + " called `" + std::string(said) + "`", std::move(hint));
}

std::optional<Fault> put_in_list(const Override& change, Entry& root, const SectionRow& row, std::string_view rest) {
    const std::string header = header_of(row);
    Entry* found = root.find(row.name);
    if (!found || (found->list() && found->list()->empty()))
        return wrong_path(change, "the profile has no " + header, "write it in the file first");
    if (!found->list())
        return wrong_path(change, "`" + std::string(row.name) + "` in the profile is no list of sections",
                          "write it as " + header);
    Entry::List& list = *found->list();
    std::vector<std::string> names;
    for (std::size_t i = 0; i < list.size(); ++i) names.push_back(name_in_tree(row, list[i], i));

    const Named named = named_in(list, names, rest);
    if (named.count > 1)
        return wrong_path(change,
                          "there are " + std::to_string(named.count) + " of " + header + " called `" +
                              std::string(rest.substr(0, named.length)) + "`",
                          "give each its own `name` in the file");
    if (named.entry) return put(change, *named.entry, row.keys, rest.substr(named.length + 1));

    const std::string_view first = split_path(rest).head;
    const bool is_key = find_key(row.keys, first) != nullptr;
    if (list.size() == 1 && (is_key || first == rest)) return put(change, list.front(), row.keys, rest);
    if (is_key)
        return wrong_path(
            change, "there are " + std::to_string(list.size()) + " of " + header + "; which one is meant is wanted",
            "one of " + first_of(names) + ", such as `" + std::string(row.name) + "." + names.front() + "." +
                std::string(rest) + "`");
    return none_of_that_name(change, row, names, rest);
}

// ---- at the top -----------------------------------------------------------------------------------------------------

Fault key_wanted(const Override& change, const SectionRow& row) {
    const std::vector<std::string_view> names = key_names(row.keys);
    return wrong_path(change, "`" + std::string(row.name) + "` is a section; one of its keys is wanted",
                      "such as `" + std::string(row.name) + (row.many ? ".NAME." : ".") +
                          std::string(row.keys.front().name) + "`; its keys are " +
                          first_of({names.begin(), names.end()}));
}

Fault no_such_section(const Override& change, std::string_view head, std::string_view rest) {
    std::vector<std::string_view> known;
    for (const SectionRow& row : sections())
        if (!row.name.empty()) known.push_back(row.name);
    std::string hint = "the sections are " + first_of({known.begin(), known.end()});
    for (const Key& key : sections()[0].keys) known.push_back(key.name);
    if (const auto near = nearest_word(head, known))
        hint = "did you mean `" + std::string(*near) + (rest.empty() ? "" : "." + std::string(rest)) + "`?";
    return wrong_path(change, "a profile has no section `" + std::string(head) + "`", std::move(hint));
}

}  // namespace

std::optional<Fault> set(Entry& root, std::string_view path, Entry value) {
    mark_as_said(value, std::string(value.said));
    const Override change{path, std::move(value)};
    if (!root.section()) return wrong_path(change, "the profile is no table of keys", {});
    const auto [head, rest] = split_path(path);
    if (find_key(sections()[0].keys, head)) return put(change, root, sections()[0].keys, path);
    const SectionRow* row = find_section(head);
    if (!row) return no_such_section(change, head, rest);
    if (rest.empty()) return key_wanted(change, *row);
    return row->many ? put_in_list(change, root, *row, rest) : put_in_section(change, root, *row, rest);
}

}  // namespace voltwright

#include "voltwright/vehicle/entry.hpp"

#include "voltwright/units/scan.hpp"
#include "voltwright/vehicle/forms.hpp"
#include "voltwright/vehicle/keys.hpp"

#include <algorithm>
#include <charconv>

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

// ---- set ------------------------------------------------------------------------------------------------------------

namespace {

void mark_as_said(Entry& entry, const std::string& said) {
    entry.said = said;
    if (Entry::List* list = entry.list())
        for (Entry& element : *list) mark_as_said(element, said);
    if (Entry::Section* section = entry.section())
        for (auto& [name, value] : *section) mark_as_said(value, said);
}

std::string listed(const std::vector<std::string>& names) {
    constexpr std::size_t most = 12;
    std::string text;
    for (std::size_t i = 0; i < std::min(names.size(), most); ++i) text += (i ? ", " : "") + names[i];
    return names.size() > most ? text + " …" : text;
}

const Key* find_key(std::span<const Key> keys, std::string_view name) {
    const auto found = std::find_if(keys.begin(), keys.end(), [&](const Key& key) { return key.name == name; });
    return found == keys.end() ? nullptr : &*found;
}

/// The first shape of that kind among a shape and its parts.
std::optional<Shape> part_of_kind(const Shape& shape, Shape::Kind kind) {
    if (shape.kind == kind) return shape;
    for (const Shape& part : shape.parts)
        if (auto found = part_of_kind(part, kind)) return found;
    return {};
}

class Setting {
public:
    Setting(std::string_view path, Entry value) : path_(path), value_(std::move(value)) {
        mark_as_said(value_, value_.said);
    }

    std::optional<Fault> at_top(Entry& root) {
        if (!root.section()) return fault("the profile is no table of keys", {});
        const std::size_t point = path_.find('.');
        const std::string_view head = path_.substr(0, point);
        const std::string_view rest = point == std::string_view::npos ? std::string_view{} : path_.substr(point + 1);
        for (const SectionRow& row : sections()) {
            if (row.name.empty() && find_key(row.keys, head)) return put(root, row.keys, path_);
            if (row.name.empty() || row.name != head) continue;
            if (rest.empty())
                return fault("`" + std::string(head) + "` is a section; one of its keys is wanted", keys_hint(row));
            return row.many ? in_list(root, row, rest) : in_section(root, row, rest);
        }
        std::vector<std::string_view> known;
        std::vector<std::string> names;
        for (const SectionRow& row : sections()) {
            if (!row.name.empty()) known.push_back(row.name);
            if (!row.name.empty()) names.emplace_back(row.name);
        }
        for (const Key& key : sections()[0].keys) known.push_back(key.name);
        const auto near = nearest_word(head, known);
        std::string hint = "the sections are " + listed(names);
        if (near) hint = "did you mean `" + std::string(*near) + (rest.empty() ? "" : "." + std::string(rest)) + "`?";
        return fault("a profile has no section `" + std::string(head) + "`", std::move(hint));
    }

private:
    std::optional<Fault> fault(std::string what, std::string hint) const {
        return Fault{std::string(path_), std::move(what), std::move(hint), true};
    }

    static std::string example(const SectionRow& row) {
        return std::string(row.name) + (row.many ? ".NAME." : ".") + std::string(row.keys.front().name);
    }

    static std::string keys_hint(const SectionRow& row) {
        std::vector<std::string> names;
        for (const Key& key : row.keys) names.emplace_back(key.name);
        return "such as `" + example(row) + "`; its keys are " + listed(names);
    }

    Entry made_section() const {
        Entry section;
        section.content = Entry::Section{};
        section.said = value_.said;
        return section;
    }

    std::optional<Fault> in_section(Entry& root, const SectionRow& row, std::string_view rest) {
        Entry* section = root.find(row.name);
        if (section && !section->section())
            return fault("`" + std::string(row.name) + "` in the profile is no section",
                         "write it as [" + std::string(row.name) + "]");
        if (section) return put(*section, row.keys, rest);
        // Made only when the rest of the path is sound.
        Entry made = made_section();
        if (auto wrong = put(made, row.keys, rest)) return wrong;
        root.section()->emplace_back(std::string(row.name), std::move(made));
        return {};
    }

    std::optional<Fault> in_list(Entry& root, const SectionRow& row, std::string_view rest) {
        const std::string header = "[[" + std::string(row.name) + "]]";
        Entry* found = root.find(row.name);
        if (!found || (found->list() && found->list()->empty()))
            return fault("the profile has no " + header, "write it in the file first");
        if (!found->list())
            return fault("`" + std::string(row.name) + "` in the profile is no list of sections",
                         "write it as " + header);
        Entry::List& list = *found->list();

        // By its name: the longest that fits, for a name may hold points.
        std::vector<std::string> names;
        Entry* entry = nullptr;
        std::size_t longest = 0, fitting = 0;
        for (std::size_t i = 0; i < list.size(); ++i) {
            names.push_back(name_in_tree(row, list[i], i));
            const std::string& name = names.back();
            if (name.empty() || rest.size() <= name.size() + 1 || rest[name.size()] != '.') continue;
            if (!same_word(rest.substr(0, name.size()), name) || name.size() < longest) continue;
            fitting = name.size() == longest ? fitting + 1 : 1;
            longest = name.size();
            entry = &list[i];
        }
        if (fitting > 1)
            return fault("there are " + std::to_string(fitting) + " of " + header + " called `" +
                             std::string(rest.substr(0, longest)) + "`",
                         "give each its own `name` in the file");
        if (entry) return put(*entry, row.keys, rest.substr(longest + 1));

        const std::string_view first = rest.substr(0, rest.find('.'));
        const bool is_key = find_key(row.keys, first) != nullptr;
        if (list.size() == 1 && (is_key || first == rest)) return put(list.front(), row.keys, rest);
        if (is_key)
            return fault(
                "there are " + std::to_string(list.size()) + " of " + header + "; which one is meant is wanted",
                "one of " + listed(names) + ", such as `" + std::string(row.name) + "." + names.front() + "." +
                    std::string(rest) + "`");
        const std::size_t last_point = rest.rfind('.');
        const std::string_view said = last_point == std::string_view::npos ? rest : rest.substr(0, last_point);
        const std::vector<std::string_view> known(names.begin(), names.end());
        const auto near = nearest_word(said, known);
        std::string hint = names.size() == 1 ? "there is only `" + names.front() + "`" : "there are " + listed(names);
        if (near && last_point != std::string_view::npos)
            hint = "did you mean `" + std::string(row.name) + "." + std::string(*near) +
                   std::string(rest.substr(last_point)) + "`?";
        return fault("there is no " + header + " called `" + std::string(said) + "`", std::move(hint));
    }

    /// As entry_name() has it, for what has not been read yet.
    static std::string name_in_tree(const SectionRow& row, const Entry& entry, std::size_t index) {
        Faults ignored;
        Profile alone;
        row.add(alone);
        for (const std::string_view key : {"name", "to", "on"})
            if (const Key* known = find_key(row.keys, key))
                if (const Entry* given = entry.find(key)) known->read(*given, {}, *known, row.at(alone, 0), ignored);
        return row.name == "reading" ? std::to_string(index + 1) : entry_name(alone, row, 0);
    }

    std::optional<Fault> put(Entry& section, std::span<const Key> keys, std::string_view path) {
        const std::size_t point = path.find('.');
        const std::string_view name = path.substr(0, point);
        const Key* key = find_key(keys, name);
        if (!key) {
            std::vector<std::string_view> known;
            for (const Key& one : keys) known.push_back(one.name);
            const auto near = nearest_word(name, known);
            return fault("there is no key `" + std::string(name) + "`",
                         near ? "did you mean `" + std::string(*near) + "`?"
                              : "the keys are " + listed({known.begin(), known.end()}));
        }
        if (!section.section()) return fault("what stands there in the profile is no table of keys", {});
        if (point == std::string_view::npos) {
            place(section, name);
            return {};
        }
        return inside(section, *key, path.substr(point + 1));
    }

    /// A key of a table that is itself a value: `fridge.inrush.current`, `run.feed.fuse.starter`.
    std::optional<Fault> inside(Entry& section, const Key& key, std::string_view rest) {
        const Shape shape = key.shape();
        const auto table = part_of_kind(shape, Shape::Kind::section);
        const auto named = part_of_kind(shape, Shape::Kind::named);
        const std::string name(key.name);
        if (!table && !named) return fault("`" + name + "` has no keys of its own", {});

        Entry* value = section.find(key.name);
        if (value && value->list()) {
            if (value->list()->size() != 1)
                return fault("`" + name + "` is a list of " + std::to_string(value->list()->size()),
                             "give the whole list: " + name + " = " + example_of(shape));
            value = &value->list()->front();
        }
        if (!value && !named && shape.kind != Shape::Kind::section)
            return fault("the profile has no `" + name + "` to change",
                         "give the whole: " + name + " = " + example_of(shape));
        if (value && !value->section())
            return fault("`" + name + "` in the profile is " + std::string(kind_of(*value)) + ", no table of keys",
                         "give the whole: " + name + " = { … }");

        Entry made = made_section();
        Entry& target = value ? *value : made;
        if (named)
            place(target, rest);
        else if (auto wrong = put(target, table->keys, rest))
            return wrong;
        if (!value) section.section()->emplace_back(name, std::move(made));
        return {};
    }

    void place(Entry& section, std::string_view name) {
        if (Entry* old = section.find(name))
            *old = value_;
        else
            section.section()->emplace_back(std::string(name), value_);
    }

    std::string_view path_;
    Entry value_;
};

}  // namespace

std::optional<Fault> set(Entry& root, std::string_view path, Entry value) {
    return Setting(path, std::move(value)).at_top(root);
}

}  // namespace voltwright

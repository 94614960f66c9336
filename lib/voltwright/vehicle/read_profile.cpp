#include "voltwright/vehicle/forms.hpp"
#include "voltwright/vehicle/keys.hpp"

#include <algorithm>

namespace voltwright {

namespace {

std::string header_of(const SectionRow& row) {
    const std::string name(row.name);
    return row.many ? "[[" + name + "]]" : "[" + name + "]";
}

const SectionRow* find_section(std::string_view name) {
    for (const SectionRow& row : sections())
        if (!row.name.empty() && row.name == name) return &row;
    return nullptr;
}

/// What a path is called in words: `[[run]]`, `inrush`, the top of the profile.
std::string words_for(const std::string& path) {
    if (path.empty()) return "the top of the profile";
    const std::size_t point = path.rfind('.');
    std::string name = point == std::string::npos ? path : path.substr(point + 1);
    name = name.substr(0, name.find('['));
    const SectionRow* row = point == std::string::npos ? find_section(name) : nullptr;
    return row ? header_of(*row) : "`" + name + "`";
}

std::string join(const std::string& path, std::string_view name) {
    return path.empty() ? std::string(name) : path + "." + std::string(name);
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

/// Says that a key is not known; answers what was probably meant.
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
        {join(path, name), "`" + std::string(name) + "` is no key of " + words_for(path), std::move(hint), true});
    return near.value_or(std::string_view{});
}

bool contains(const std::vector<std::string_view>& words, std::string_view word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

}  // namespace

void check_ranges(const Checked& values, const std::string& path, const Key& key, Faults& faults) {
    const auto same_kind = [](const std::variant<Measure, int>& a, const std::variant<Measure, int>& b) {
        if (a.index() != b.index()) return false;
        const auto* measure = std::get_if<Measure>(&a);
        return !measure || measure->index() == std::get<Measure>(b).index();
    };
    struct Text {
        std::string operator()(int count) const { return std::to_string(count); }
        std::string operator()(const Measure& measure) const {
            return std::visit(
                []<class Q>(const Q& q) {
                    if constexpr (requires { write(Spread<Q>{q}); })
                        return write(Spread<Q>{q});
                    else
                        return show(q);
                },
                measure);
        }
    };
    for (const CheckedValue& checked : values)
        for (const Range& range : key.ranges) {
            if (!same_kind(checked.value, range.low)) continue;
            // What is no number is inside no range.
            if ((range.above ? range.low < checked.value : range.low <= checked.value) && checked.value <= range.high)
                continue;
            Key alone = key;
            alone.ranges = {range};
            faults.push_back(
                {path + checked.at,
                 std::visit(Text{}, checked.value) + " is outside the range of `" + std::string(key.name) + "`",
                 "it may be " + show_ranges(alone)});
        }
}

void check_section(std::span<const Key> keys, const void* section, const std::string& path, Faults& faults) {
    for (const Key& key : keys) key.check(key, section, join(path, key.name), faults);
}

Faults out_of_range(const Profile& profile) {
    Faults faults;
    for (const SectionRow& section : sections())
        for (std::size_t i = 0; i < section.count(profile); ++i)
            check_section(section.keys, section.look(profile, i),
                          std::string(section.name) + (section.many ? "[" + std::to_string(i) + "]" : ""), faults);
    return faults;
}

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
            if (is_empty((*list)[i])) found.push_back(path + "[" + std::to_string(i) + "]");
    const Entry::Section* section = value.section();
    if (!section) return found;
    const Shape shape = key.shape();
    const bool named = std::any_of(shape.parts.begin(), shape.parts.end(),
                                   [](const Shape& part) { return part.kind == Shape::Kind::named; });
    if (!named) return found;
    for (const auto& [name, inner] : *section)
        if (is_empty(inner)) found.push_back(join(path, name));
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
            words = join(words, !named && *name->text() == "charger" ? "feed" : *name->text());
    }
    return join(words, key);
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
                 (std::holds_alternative<Required>(key.fallback) || !key.found.empty() ? ""
                                                                                       : ", or leave the line out")});
    return true;
}

}  // namespace

void read_section(const Entry& entry, const std::string& path, std::span<const Key> keys, void* section,
                  Faults& faults) {
    const Entry::Section* entries = entry.section();
    if (!entries) return detail::wrong_kind(entry, path, "a table of keys", faults);
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
        if (asked_for(value, join(path, name), *key, entry, faults)) continue;
        key->read(value, join(path, name), *key, section, faults);
    }
    for (const Key& key : keys)
        if (std::holds_alternative<Required>(key.fallback) && !contains(met, key.name))
            faults.push_back(
                {join(path, key.name), "this " + words_for(path) + " has no `" + std::string(key.name) + "`",
                 "write " + std::string(key.name) + " = " + example_of(key) + ": " + std::string(key.sentence)});
}

std::string write_inline(std::span<const Key> keys, const void* section) {
    std::string text;
    for (const Key& key : keys)
        if (key.given(section))
            text += (text.empty() ? " " : ", ") + std::string(key.name) + " = " + key.written(section);
    return "{" + text + " }";
}

namespace {

class Reading {
public:
    Reading(const Entry& root, Faults& faults) : root_(root), faults_(faults) {}

    Profile profile() {
        const Entry::Section* entries = root_.section();
        if (!entries) {
            detail::wrong_kind(root_, {}, "a profile with its sections", faults_);
            return std::move(profile_);
        }
        for (const auto& [name, value] : *entries) at_top(name, value);
        check_sun();
        check_missing();
        return std::move(profile_);
    }

private:
    void at_top(const std::string& name, const Entry& value) {
        const SectionRow& top = sections()[0];
        for (const Key& key : top.keys)
            if (key.name == name) {
                if (!asked_for(value, name, key, root_, faults_)) key.read(value, name, key, &profile_, faults_);
                return;
            }
        const SectionRow* row = find_section(name);
        if (!row) return unknown(name, value);
        met_.push_back(row->name);
        if (row->many)
            list(*row, value);
        else
            single(*row, value);
    }

    void unknown(const std::string& name, const Entry& value) {
        const Entry::List* list = value.list();
        const bool sections_in_list = list && !list->empty() && list->front().section();
        if (!value.section() && !sections_in_list) {
            // A key that stands above its section, or a title that was misspelt.
            const std::string_view meant = unknown_key({}, name, sections()[0].keys, faults_);
            std::string sections_with_it;
            if (meant.empty()) {
                for (const SectionRow& row : sections())
                    for (const Key& key : row.keys)
                        if (key.name == name)
                            sections_with_it += (sections_with_it.empty() ? "" : ", ") + header_of(row);
                faults_.back().hint = sections_with_it.empty()
                                          ? "the top of the profile has `title` and the sections " + all_sections()
                                          : "it belongs below " + sections_with_it;
            }
            return;
        }
        std::vector<std::string_view> known;
        for (const SectionRow& row : sections())
            if (!row.name.empty()) known.push_back(row.name);
        const auto near = nearest_word(name, known);
        std::string hint = "the sections are " + all_sections();
        if (near) {
            met_.push_back(*near);
            hint = "did you mean `" + header_of(*find_section(*near)) + "`?";
        }
        faults_.push_back({name, "`" + (list ? "[[" + name + "]]" : "[" + name + "]") + "` is no section of a profile",
                           std::move(hint), true});
    }

    static std::string all_sections() {
        std::string names;
        for (const SectionRow& row : sections())
            if (!row.name.empty()) names += (names.empty() ? "" : ", ") + header_of(row);
        return names;
    }

    void single(const SectionRow& row, const Entry& value) {
        const std::string name(row.name);
        if (row.optional) row.add(profile_);
        void* section = row.at(profile_, 0);
        if (value.section()) return read_section(value, name, row.keys, section, faults_);
        const Entry::List* list = value.list();
        if (!list || list->empty() || !list->front().section()) return no_section(row, value);
        faults_.push_back({name, "there is only one " + header_of(row) + " in a profile; this is a list of them",
                           "write [" + name + "]" + (name == "battery" ? ", with count for equal batteries" : ""),
                           true});
        read_section(list->front(), name + "[0]", row.keys, section, faults_);
    }

    void list(const SectionRow& row, const Entry& value) {
        const std::string name(row.name);
        if (value.section()) {
            faults_.push_back(
                {name, "there may be several " + header_of(row) + " in a profile, so its header has two brackets",
                 "write [[" + name + "]]", true});
            row.add(profile_);
            return read_section(value, name, row.keys, row.at(profile_, 0), faults_);
        }
        const Entry::List* entries = value.list();
        if (!entries) return no_section(row, value);
        if (entries->size() > row.most) {
            faults_.push_back({name + "[" + std::to_string(row.most) + "]",
                               "a profile may have " + std::to_string(row.most) + " of " + header_of(row) +
                                   "; this has " + std::to_string(entries->size()),
                               {},
                               true});
            return;
        }
        for (std::size_t i = 0; i < entries->size(); ++i) {
            row.add(profile_);
            read_section((*entries)[i], name + "[" + std::to_string(i) + "]", row.keys, row.at(profile_, i), faults_);
        }
    }

    void no_section(const SectionRow& row, const Entry& value) {
        faults_.push_back({std::string(row.name),
                           "`" + std::string(row.name) + "` is a section; this is " + std::string(kind_of(value)),
                           "write a line " + header_of(row) + ", and its keys below it"});
    }

    /// The sun's place in the sky needs the date and the latitude.
    void check_sun() {
        const Entry* trip = root_.find("trip");
        if (!profile_.solar || !trip) return;
        const bool start = trip->find("start"), latitude = trip->find("latitude");
        if (start && latitude) return;
        faults_.push_back({"solar",
                           std::string("[solar] needs ") + (start ? "" : "`start`") +
                               (start || latitude ? "" : " and ") + (latitude ? "" : "`latitude`") + " in [trip]",
                           std::string("write below [trip]: ") + (start ? "" : "start = 2026-09-14") +
                               (start || latitude ? "" : ", ") +
                               (latitude ? "" : "latitude = \"30 deg\" (south of the equator: \"-30 deg\")"),
                           true});
    }

    /// A section that is not there at all, and has keys that nobody can guess.
    void check_missing() {
        for (const SectionRow& row : sections()) {
            if (row.optional || row.name.empty() || contains(met_, row.name)) continue;
            std::string names, lines;
            std::size_t count = 0;
            const auto required = [](const Key& key) { return std::holds_alternative<Required>(key.fallback); };
            const auto all = std::count_if(row.keys.begin(), row.keys.end(), required);
            for (const Key& key : row.keys) {
                if (!required(key)) continue;
                ++count;
                names += (count == 1                               ? ""
                          : count == static_cast<std::size_t>(all) ? " and "
                                                                   : ", ") +
                         std::string(key.name);
                lines += (count == 1 ? "" : ", ") + std::string(key.name) + " = " + example_of(key);
            }
            if (count == 0) continue;
            faults_.push_back(
                {std::string(row.name),
                 "the profile has no " + header_of(row) + "; its " + names + (count == 1 ? " is" : " are") + " needed",
                 "write a line " + header_of(row) + ", and below it " + lines});
        }
    }

    const Entry& root_;
    Faults& faults_;
    Profile profile_;
    std::vector<std::string_view> met_;
};

}  // namespace

Profile read_profile(const Entry& root, Faults& faults) { return Reading(root, faults).profile(); }

}  // namespace voltwright

#include "voltwright/report/listing.hpp"

#include "voltwright/files/characters.hpp"
#include "voltwright/report/terminal.hpp"
#include "voltwright/vehicle/keys.hpp"

#include <algorithm>
#include <stdexcept>

namespace voltwright {

namespace {

constexpr Style page{.colour = false, .unicode = true, .width = 100};

/// The elements of a written list, without its brackets.
std::vector<std::string_view> elements_of(std::string_view list) {
    list = list.substr(1, list.size() - 2);
    std::vector<std::string_view> elements;
    std::size_t begin = 0;
    int depth = 0;
    bool quoted = false;
    const auto add = [&](std::size_t end) {
        std::string_view element = list.substr(begin, end - begin);
        element.remove_prefix(std::min(element.find_first_not_of(' '), element.size()));
        if (!element.empty()) elements.push_back(element);
        begin = end + 1;
    };
    for (std::size_t i = 0; i < list.size(); ++i) {
        const char c = list[i];
        if (quoted) {
            if (c == '\\') ++i;
            quoted = c != '"';
        } else if (c == '"') {
            quoted = true;
        } else if (c == '[' || c == '{') {
            ++depth;
        } else if (c == ']' || c == '}') {
            --depth;
        } else if (c == ',' && depth == 0) {
            add(i);
        }
    }
    add(list.size());
    return elements;
}

/// A long list stands with one element a line: a profile's lines have a limit, and eyes too.
std::string broken(const std::string& value, std::size_t columns) {
    if (columns_of(value) <= columns || value.size() < 2 || value.front() != '[' || value.back() != ']') return value;
    std::string result = "[\n";
    for (const std::string_view element : elements_of(value)) result.append("    ").append(element).append(",\n");
    return result + "]";
}

std::string header_of(const SectionRow& section) {
    const std::string name(section.name);
    return section.many ? "[[" + name + "]]" : "[" + name + "]";
}

std::size_t longest_name(const SectionRow& section) {
    std::size_t longest = 0;
    for (const Key& key : section.keys) longest = std::max(longest, key.name.size());
    return longest;
}

/// "default, by chemistry", "default: 2, or 1 with the body as return"
std::string default_words(const Key& key) {
    const auto* rule = std::get_if<ByRule>(&key.fallback);
    if (!rule || rule->words.empty()) return "default";
    return (rule->words.substr(0, 3) == "by " ? "default, " : "default: ") + std::string(rule->words);
}

std::string absence_of(const Key& key) {
    if (const auto* absent = std::get_if<Absent>(&key.fallback)) return std::string(absent->words);
    if (const auto* rule = std::get_if<ByRule>(&key.fallback)) return std::string(rule->words);
    return "not given";
}

/// Calls with each entry of each section: the row, the index, the entry as given and as completed.
template <class Visit>
void each_entry(const Profile& given, const Profile& completed, Visit visit) {
    for (const SectionRow& section : sections()) {
        const std::size_t count = section.count(completed), said = section.count(given);
        for (std::size_t i = 0; i < count; ++i)
            visit(section, i, i < said ? section.look(given, i) : nullptr, section.look(completed, i));
    }
}

// ---- a new profile ---------------------------------------------------------------------------------------------------

Entry text(std::string_view words) { return {std::string(words), {}, {}, {}}; }
Entry whole(std::int64_t number) { return {number, {}, {}, {}}; }
Entry list(Entry::List elements) { return {std::move(elements), {}, {}, {}}; }
Entry section_of(Entry::Section entries) { return {std::move(entries), {}, {}, {}}; }

/// Three days, one battery, one fridge: from these come the examples of a new profile and, blank, its live keys.
Profile simplest() {
    const auto run = [](std::string_view to, std::string_view length) {
        return section_of({{"to", text(to)}, {"length", text(length)}});
    };
    const Entry rated = section_of({{"around", text("25 degC")}, {"a_day", text("22 Ah")}});
    const Entry root = section_of({
        {"trip", section_of({{"days", whole(3)},
                             {"low", text("14 degC")},
                             {"high", text("31 degC")},
                             {"drives", text("08:30-10:00")}})},
        {"battery", section_of({{"chemistry", text("agm")}, {"capacity", text("120 Ah")}})},
        {"charger", section_of({{"output", text("25 A")}})},
        {"run", list({run("charger", "6 m"), run("battery", "1 m"), run("fridge", "3 m")})},
        {"fridge", list({section_of({{"draw", text("45 W")}, {"rated", list({rated})}})})},
    });
    Faults faults;
    Profile profile = read_profile(root, faults);
    if (!faults.empty()) throw std::logic_error("the simplest profile: " + faults[0].path + ": " + faults[0].what);
    return profile;
}

/// Its default, or something well formed. `completed` is the entry with its defaults, if there is one.
std::string value_for(const Key& key, const void* completed) {
    if (const std::string usual = usual_value(key); !usual.empty()) return usual;
    if (completed && std::holds_alternative<ByRule>(key.fallback))
        if (const std::string worked_out = key.written(completed); !worked_out.empty()) return worked_out;
    return example_of(key);
}

std::string remark_on(const Key& key) {
    if (std::holds_alternative<Usual>(key.fallback)) return " (default)";
    if (std::holds_alternative<ByRule>(key.fallback)) return " (" + default_words(key) + ")";
    if (const auto* absent = std::get_if<Absent>(&key.fallback))
        return absent->words.empty() ? std::string() : " (without it: " + std::string(absent->words) + ")";
    return {};
}

/// A value that is to be filled in: `""`, or a list with one section whose needed keys are.
std::string blank_of(const Key& key) {
    const Shape shape = key.shape();
    if (shape.kind != Shape::Kind::one_or_list || shape.parts.at(0).kind != Shape::Kind::section) return "\"\"";
    std::string inner;
    for (const Key& one : shape.parts.at(0).keys)
        if (std::holds_alternative<Required>(one.fallback))
            inner += (inner.empty() ? " " : ", ") + std::string(one.name) + " = \"\"";
    return "[{" + inner + " }]";
}

/// `capacity = ""  # Ah, printed on the battery`
std::string live_line(const Key& key, const void* entry) {
    const std::string name = std::string(key.name) + " = ";
    return key.found.empty() ? name + key.written(entry) + "\n"
                             : name + blank_of(key) + "  # " + std::string(key.found) + "\n";
}

/// Prose in comments, each of its lines with its mark.
std::string comment(const std::string& words) {
    const Style narrower{.colour = false, .unicode = true, .width = page.width - 2};
    const std::string lines = wrap(words, narrower);
    std::string result;
    for (std::size_t at = 0; at < lines.size();) {
        const std::size_t end = lines.find('\n', at);
        result += "# " + lines.substr(at, end - at) + "\n";
        at = end + 1;
    }
    return result;
}

}  // namespace

std::string list_profile(const Profile& given, const Tables& tables) {
    const Profile completed = complete(given, tables);
    std::string result;
    for (const SectionRow& section : sections()) {
        const std::size_t count = section.count(completed), said = section.count(given);
        if (count == 0) {
            result += "\n" + comment("no " + header_of(section) + ": " + std::string(section.sentence));
            continue;
        }
        const std::size_t longest = longest_name(section);
        for (std::size_t i = 0; i < count; ++i) {
            if (!section.name.empty()) result += (result.empty() ? "" : "\n") + header_of(section) + "\n";
            const void* filled = section.look(completed, i);
            for (const Key& key : section.keys) {
                const std::string value = key.written(filled);
                if (value.empty()) {
                    result += "# " + std::string(key.name) + ": " + absence_of(key) + "\n";
                    continue;
                }
                result +=
                    padded(key.name, longest) + " = " + broken(value, 100 - std::min<std::size_t>(longest + 3, 60));
                if (i >= said || !key.given(section.look(given, i))) result += "  # " + default_words(key);
                result += "\n";
            }
        }
    }
    return result;
}

std::string toml_in_ascii(std::string_view toml) {
    constexpr std::string_view digits = "0123456789ABCDEF";
    std::string result;
    result.reserve(toml.size());
    for (std::size_t at = 0; at < toml.size();) {
        const Character next = character_at(toml, at);
        if (next.code < 0x80) {
            result += toml[at];
        } else {
            result += next.code > 0xffff ? "\\U" : "\\u";
            for (int shift = next.code > 0xffff ? 28 : 12; shift >= 0; shift -= 4)
                result += digits[next.code >> shift & 0xf];
        }
        at += std::max<std::size_t>(next.bytes, 1);
    }
    return result;
}

std::vector<std::string> defaulted_keys(const Profile& given, const Tables& tables) {
    const Profile completed = complete(given, tables);
    std::vector<std::string> keys;
    each_entry(given, completed, [&](const SectionRow& section, std::size_t i, const void* said, const void* filled) {
        for (const Key& key : section.keys) {
            if (key.written(filled).empty() || (said && key.given(said))) continue;
            std::string path(section.name);
            if (section.many) path += "." + entry_name(completed, section, i);
            keys.push_back(path.empty() ? std::string(key.name) : path + "." + std::string(key.name));
        }
    });
    return keys;
}

std::string new_profile(const Tables& tables) {
    const Profile profile = simplest(), completed = complete(profile, tables);
    std::string result = comment(
        "A profile for voltwright: the vehicle, its second battery, and the trip. Fill in what stands empty, \"\": "
        "voltwright plan asks for what is still missing. Every quantity is text in quotes, with its unit: \"6 m\". "
        "Lines "
        "that begin with #name are keys that one may leave out: take the # away to use one.");
    for (const SectionRow& section : sections()) {
        const std::size_t count = section.count(profile);
        result += "\n";
        if (!section.name.empty()) result += comment(std::string(section.sentence));
        for (std::size_t i = 0; i < count; ++i) {
            if (!section.name.empty()) result += header_of(section) + "\n";
            const void* entry = section.look(profile, i);
            for (const Key& key : section.keys) {
                if (!key.given(entry)) continue;
                if (i == 0) result += comment(std::string(key.sentence));
                result += live_line(key, entry);
            }
        }
        if (count == 0) result += "#" + header_of(section) + "\n";
        for (const Key& key : section.keys) {
            if (count > 0 && key.given(section.look(profile, count - 1))) continue;
            result += comment(std::string(key.sentence) + remark_on(key));
            result += "#" + std::string(key.name) + " = " +
                      value_for(key, count > 0 ? section.look(completed, count - 1) : nullptr) + "\n";
        }
    }
    return result;
}

}  // namespace voltwright

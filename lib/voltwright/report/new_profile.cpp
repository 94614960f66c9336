#include "voltwright/profile/complete.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/read_profile.hpp"
#include "voltwright/profile/section.hpp"
#include "voltwright/report/listing.hpp"
#include "voltwright/report/section_words.hpp"

#include <stdexcept>

namespace voltwright {

namespace {

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
std::string value_for(const Key& key, SectionView completed) {
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
std::string live_line(const Key& key, SectionView entry) {
    const std::string name = std::string(key.name) + " = ";
    return key.found.empty() ? name + key.written(entry) + "\n"
                             : name + blank_of(key) + "  # " + std::string(key.found) + "\n";
}

/// `#days = 3`, with a sentence before it that says what it is for.
std::string commented_key(const Key& key, SectionView completed) {
    return comment(std::string(key.sentence) + remark_on(key)) + "#" + std::string(key.name) + " = " +
           value_for(key, completed) + "\n";
}

/// The keys that the simplest profile gives in an entry of a section; each is told of once, in the first entry.
std::string live_keys(const SectionRow& section, SectionView entry, bool first) {
    std::string lines;
    for (const Key& key : section.keys) {
        if (!key.given(entry)) continue;
        if (first) lines += comment(std::string(key.sentence));
        lines += live_line(key, entry);
    }
    return lines;
}

std::string new_section(const SectionRow& section, const Profile& profile, const Profile& completed) {
    const std::size_t count = section.count(profile);
    std::string lines = section.name.empty() ? "" : comment(std::string(section.sentence));
    for (std::size_t i = 0; i < count; ++i) {
        if (!section.name.empty()) lines += header_of(section) + "\n";
        lines += live_keys(section, section.look(profile, i), i == 0);
    }
    if (count == 0) lines += "#" + header_of(section) + "\n";
    const SectionView last = count > 0 ? section.look(profile, count - 1) : SectionView();
    const SectionView filled = count > 0 ? section.look(completed, count - 1) : SectionView();
    for (const Key& key : section.keys)
        if (!last || !key.given(last)) lines += commented_key(key, filled);
    return lines;
}

}  // namespace

std::string new_profile(const Tables& tables) {
    const Profile profile = simplest(), completed = complete(profile, tables);
    std::string result = comment(
        "A profile for voltwright: the vehicle, its second battery, and the trip. Fill in what stands empty, \"\": "
        "voltwright plan asks for what is still missing. Every quantity is text in quotes, with its unit: \"6 m\". "
        "Lines "
        "that begin with #name are keys that one may leave out: take the # away to use one.");
    for (const SectionRow& section : sections()) result += "\n" + new_section(section, profile, completed);
    return result;
}

}  // namespace voltwright

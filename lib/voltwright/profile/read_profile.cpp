#include "voltwright/profile/read_profile.hpp"

#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/profile/read_section.hpp"
#include "voltwright/profile/section.hpp"
#include "voltwright/units/parse.hpp"

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace voltwright {

namespace {

/// A profile while it is read.
struct ProfileReading {
    Profile profile;
    std::vector<std::string_view> met;  ///< sections that were written, or probably meant
    Faults& faults;
};

std::string headers_of_all_sections() {
    std::string names;
    for (const SectionRow& row : sections())
        if (!row.name.empty()) names += (names.empty() ? "" : ", ") + header_of(row);
    return names;
}

/// "[trip], [[day]]": those with a key of that name.
std::string sections_with(std::string_view key) {
    std::string names;
    for (const SectionRow& row : sections())
        if (std::any_of(row.keys.begin(), row.keys.end(), [key](const Key& one) { return one.name == key; }))
            names += (names.empty() ? "" : ", ") + header_of(row);
    return names;
}

bool holds_sections(const Entry& value) {
    const Entry::List* list = value.list();
    return list && !list->empty() && list->front().section();
}

/// A key that stands above its section, or a title that was misspelt.
void unknown_at_top(const std::string& name, Faults& faults) {
    const std::string_view meant = unknown_key({}, name, sections()[0].keys, faults);
    if (!meant.empty()) return;
    const std::string owners = sections_with(name);
    faults.back().hint = owners.empty()
                             ? "the top of the profile has `title` and the sections " + headers_of_all_sections()
                             : "it belongs below " + owners;
}

void unknown_section(const std::string& name, bool in_list, ProfileReading& reading) {
    std::vector<std::string_view> known;
    for (const SectionRow& row : sections())
        if (!row.name.empty()) known.push_back(row.name);
    std::string hint = "the sections are " + headers_of_all_sections();
    if (const auto near = nearest_word(name, known)) {
        reading.met.push_back(*near);
        hint = "did you mean `" + header_of(*find_section(*near)) + "`?";
    }
    reading.faults.push_back({name,
                              "`" + (in_list ? "[[" + name + "]]" : "[" + name + "]") + "` is no section of a profile",
                              std::move(hint), true});
}

void no_section(const SectionRow& row, const Entry& value, Faults& faults) {
    faults.push_back({std::string(row.name),
                      "`" + std::string(row.name) + "` is a section; this is " + std::string(kind_of(value)),
                      "write a line " + header_of(row) + ", and its keys below it"});
}

void read_single(const SectionRow& row, const Entry& value, ProfileReading& reading) {
    const std::string name(row.name);
    if (row.optional) row.add(reading.profile);
    const SectionRef section = row.at(reading.profile, 0);
    if (value.section()) return read_section(value, name, row.keys, section, reading.faults);
    if (!holds_sections(value)) return no_section(row, value, reading.faults);
    reading.faults.push_back({name, "there is only one " + header_of(row) + " in a profile; this is a list of them",
                              "write [" + name + "]" + (name == "battery" ? ", with count for equal batteries" : ""),
                              true});
    read_section(value.list()->front(), path_to(name, std::size_t{0}), row.keys, section, reading.faults);
}

void read_list(const SectionRow& row, const Entry& value, ProfileReading& reading) {
    const std::string name(row.name);
    if (value.section()) {
        reading.faults.push_back(
            {name, "there may be several " + header_of(row) + " in a profile, so its header has two brackets",
             "write [[" + name + "]]", true});
        row.add(reading.profile);
        return read_section(value, name, row.keys, row.at(reading.profile, 0), reading.faults);
    }
    const Entry::List* entries = value.list();
    if (!entries) return no_section(row, value, reading.faults);
    if (entries->size() > row.most) {
        reading.faults.push_back({path_to(name, row.most),
                                  "a profile may have " + std::to_string(row.most) + " of " + header_of(row) +
                                      "; this has " + std::to_string(entries->size()),
                                  {},
                                  true});
        return;
    }
    for (std::size_t i = 0; i < entries->size(); ++i) {
        row.add(reading.profile);
        read_section((*entries)[i], path_to(name, i), row.keys, row.at(reading.profile, i), reading.faults);
    }
}

void read_at_top(const Entry& root, const std::string& name, const Entry& value, ProfileReading& reading) {
    const SectionRow& top = sections()[0];
    for (const Key& key : top.keys)
        if (key.name == name) return read_key(key, value, name, root, top.at(reading.profile, 0), reading.faults);
    if (const SectionRow* row = find_section(name)) {
        reading.met.push_back(row->name);
        return row->many ? read_list(*row, value, reading) : read_single(*row, value, reading);
    }
    if (value.section() || holds_sections(value)) return unknown_section(name, value.list() != nullptr, reading);
    unknown_at_top(name, reading.faults);
}

/// The sun's place in the sky needs the date and the latitude.
void check_sun(const Entry& root, ProfileReading& reading) {
    const Entry* trip = root.find("trip");
    if (!reading.profile.solar || !trip) return;
    const bool start = trip->find("start"), latitude = trip->find("latitude");
    if (start && latitude) return;
    reading.faults.push_back({"solar",
                              std::string("[solar] needs ") + (start ? "" : "`start`") +
                                  (start || latitude ? "" : " and ") + (latitude ? "" : "`latitude`") + " in [trip]",
                              std::string("write below [trip]: ") + (start ? "" : "start = 2026-09-14") +
                                  (start || latitude ? "" : ", ") +
                                  (latitude ? "" : "latitude = \"30 deg\" (south of the equator: \"-30 deg\")"),
                              true});
}

/// A section that is not there at all, and has keys that nobody can guess.
void missing_section(const SectionRow& row, Faults& faults) {
    std::vector<const Key*> needed;
    for (const Key& key : row.keys)
        if (key.required()) needed.push_back(&key);
    if (needed.empty()) return;
    std::string names, lines;
    for (std::size_t i = 0; i < needed.size(); ++i) {
        names += (i == 0 ? "" : i + 1 == needed.size() ? " and " : ", ") + std::string(needed[i]->name);
        lines += (i == 0 ? "" : ", ") + std::string(needed[i]->name) + " = " + example_of(*needed[i]);
    }
    faults.push_back(
        {std::string(row.name),
         "the profile has no " + header_of(row) + "; its " + names + (needed.size() == 1 ? " is" : " are") + " needed",
         "write a line " + header_of(row) + ", and below it " + lines});
}

}  // namespace

Profile read_profile(const Entry& root, Faults& faults) {
    ProfileReading reading{{}, {}, faults};
    const Entry::Section* entries = root.section();
    if (!entries) {
        formats::wrong_kind(root, {}, "a profile with its sections", faults);
        return {};
    }
    for (const auto& [name, value] : *entries) read_at_top(root, name, value, reading);
    check_sun(root, reading);
    for (const SectionRow& row : sections())
        if (!row.optional && !row.name.empty() && !(row.left_out && row.left_out(reading.profile)) &&
            std::find(reading.met.begin(), reading.met.end(), row.name) == reading.met.end())
            missing_section(row, faults);
    return std::move(reading.profile);
}

}  // namespace voltwright

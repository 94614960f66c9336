#pragma once

#include "voltwright/profile/key.hpp"
#include "voltwright/profile/profile.hpp"

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace voltwright {

/// What a look for contradictions sees: values that are each good alone.
struct WholeProfile {
    const Profile& given;
    const Profile& complete;  ///< with every default: nothing is wrong that nobody wrote
    const Tables& tables;
};

/// One section of the profile: all that is told of it stands in one file of `profile/sections/`.
struct SectionRow {
    std::string_view name;  ///< `trip`; empty for the top of the file
    bool many;              ///< `[[run]]` rather than `[trip]`
    bool optional;          ///< may be left out, and then has no defaults
    std::size_t most;       ///< entries allowed
    std::string_view sentence;
    std::span<const Key> keys;

    std::size_t (*count)(const Profile& profile);
    SectionRef (*at)(Profile& profile, std::size_t index);
    SectionView (*look)(const Profile& profile, std::size_t index);
    void (*add)(Profile& profile);

    /// What does not fit together in it, or between it and the sections before it; nullptr where nothing can.
    void (*contradictions)(const WholeProfile& whole, Faults& faults) = nullptr;
    /// Whether a section that is always there lacks nothing although nobody wrote it; nullptr: never.
    bool (*left_out)(const Profile& given) = nullptr;
    /// The name of an entry of a list section, empty when it has none; nullptr where none has.
    std::string (*name_of)(const Profile& profile, std::size_t index) = nullptr;
};

/// All sections in the order in which a profile is best written, with all their keys.
std::span<const SectionRow> sections();

/// The section of that name, or nullptr; the top of the file has none.
const SectionRow* find_section(std::string_view name);

/// `[trip]`, `[[run]]`
std::string header_of(const SectionRow& section);

/// The name by which an entry of a list section goes in paths and messages: `feed`, `fridge`; a day by what stands in
/// its `on` (`2-4`), a reading by its place in the list (`1`).
std::string entry_name(const Profile& profile, const SectionRow& section, std::size_t index);

/// Its path: `trip`, `run[1]`.
std::string path_of(const SectionRow& section, std::size_t index);

// ---- making rows ----------------------------------------------------------------------------------------------------

/// A section that is always there, whether written or not.
template <auto Member>
SectionRow one_section(std::string_view name, std::string_view sentence, std::span<const Key> keys) {
    return {name,
            false,
            false,
            1,
            sentence,
            keys,
            [](const Profile&) -> std::size_t { return 1; },
            [](Profile& profile, std::size_t) { return SectionRef::of(profile.*Member); },
            [](const Profile& profile, std::size_t) { return SectionView::of(profile.*Member); },
            [](Profile&) {}};
}

/// One that may be left out.
template <auto Member>
SectionRow optional_section(std::string_view name, std::string_view sentence, std::span<const Key> keys) {
    return {name,
            false,
            true,
            1,
            sentence,
            keys,
            [](const Profile& profile) -> std::size_t { return (profile.*Member).has_value() ? 1 : 0; },
            [](Profile& profile, std::size_t) { return SectionRef::of((profile.*Member).value()); },
            [](const Profile& profile, std::size_t) { return SectionView::of((profile.*Member).value()); },
            [](Profile& profile) { (profile.*Member).emplace(); }};
}

/// One of which there may be several.
template <auto Member>
SectionRow list_section(std::string_view name, std::size_t most, std::string_view sentence, std::span<const Key> keys) {
    return {name,
            true,
            true,
            most,
            sentence,
            keys,
            [](const Profile& profile) { return (profile.*Member).size(); },
            [](Profile& profile, std::size_t index) { return SectionRef::of((profile.*Member).at(index)); },
            [](const Profile& profile, std::size_t index) { return SectionView::of((profile.*Member).at(index)); },
            [](Profile& profile) { (profile.*Member).emplace_back(); }};
}

}  // namespace voltwright

#pragma once

#include "voltwright/tables/tables.hpp"
#include "voltwright/units/measure.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/vehicle/entry.hpp"
#include "voltwright/vehicle/profile.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// The key table: one row a profile key. From it come reading, "did you mean", the JSON Schema of the profile, `show`,
/// `new`, `--set` and the reference of keys. Nothing about a key is written twice.
namespace voltwright {

struct Key;

/// What a value looks like when written, for whoever describes it to people and editors.
struct Shape {
    enum class Kind {
        quantity,     ///< text with a unit of one of `dimensions`
        gauge,        ///< a conductor's size
        stud,         ///< the thread of a terminal
        whole,        ///< a whole number
        flag,         ///< true or false
        text,         ///< free text
        word,         ///< one of `words`
        date,         ///< a TOML date
        clock,        ///< "18:30"
        window,       ///< "18:30-22:00"
        days,         ///< "2-4", a day, or a list of days
        list,         ///< of `parts[0]`
        one_or_list,  ///< one `parts[0]`, or a list of it
        any_of,       ///< one of `parts`
        section,      ///< named things of `keys`
        named,        ///< names chosen by the user, each with a `parts[0]`
    };
    Kind kind;
    std::string_view says;  ///< "a cable size such as \"8 AWG\""
    std::vector<Dimension> dimensions = {};
    std::vector<std::string_view> words = {};
    std::vector<Shape> parts = {};
    std::span<const Key> keys = {};
    std::string_view example = {};  ///< a well-formed value as TOML, where the kind does not say it all
};

/// Between two quantities of one dimension, or two counts. `above`: the lower bound itself is outside.
struct Range {
    std::variant<Measure, int> low, high;
    bool above = false;
};

/// The key has to be there.
struct Required {
    std::string_view example = {};  ///< as TOML, where the shape's own would not do: `"14 degC"`
};
/// There is no default; the sentence says what its absence means.
struct Absent {
    std::string_view words;
    std::string_view example = {};  ///< as TOML, where the usual one of its dimension would be out of range
};
/// The default as one would write it.
struct Usual {
    std::variant<std::string_view, int, bool> written;
};
/// A default that follows from the rest of the profile or from a table.
struct ByRule {
    std::string_view words;  ///< "by chemistry"
    /// The profile is complete up to this key's section; `index` is the entry of a list.
    std::optional<Entry> (*value)(const Profile& profile, const Tables& tables, std::size_t index);
};
using Default = std::variant<Required, Absent, Usual, ByRule>;

/// One key of one section.
struct Key {
    std::string_view name;
    Default fallback;
    std::vector<Range> ranges;  ///< at most one a dimension
    std::string_view sentence;

    // Where it lands, made from the member that the row names. `section` points to the struct of the section.
    bool (*given)(const void* section);
    void (*read)(const Entry& entry, const std::string& path, const Key& key, void* section, Faults& faults);
    std::string (*written)(const void* section);
    Shape (*shape)();
    void (*check)(const Key& key, const void* section, const std::string& path, Faults& faults);

    /// Where one finds the value: "Ah, printed on the battery". Only of keys that a new profile leaves blank.
    std::string_view found = {};
};

/// One section of the profile.
struct SectionRow {
    std::string_view name;  ///< `trip`; empty for the top of the file
    bool many;              ///< `[[run]]` rather than `[trip]`
    bool optional;          ///< may be left out, and then has no defaults
    std::size_t most;       ///< entries allowed
    std::string_view sentence;
    std::span<const Key> keys;

    std::size_t (*count)(const Profile& profile);
    void* (*at)(Profile& profile, std::size_t index);
    const void* (*look)(const Profile& profile, std::size_t index);
    void (*add)(Profile& profile);
};

/// All sections in the order in which a profile is best written, with all their keys.
std::span<const SectionRow> sections();

/// The name by which an entry of a list section goes in paths and messages: `feed`, `fridge`; a day by what stands in
/// its `on` (`2-4`), a reading by its place in the list (`1`).
std::string entry_name(const Profile& profile, const SectionRow& section, std::size_t index);

/// Reads the tree into a profile by the key table: everything that is there, nothing that is not. Unknown keys, values
/// of the wrong kind or out of range and missing required keys are faults, in the order of the tree.
Profile read_profile(const Entry& root, Faults& faults);

/// The quantities and counts of a profile that are outside the ranges of their keys, or no number at all: for one that was
/// not read from a text, where read_profile() says the same.
Faults out_of_range(const Profile& profile);

/// Fills in every default that has one. What was given stays as it was.
Profile complete(const Profile& profile, const Tables& tables);

/// "above 0 A, at most 500 A"; empty when a key has no ranges.
std::string show_ranges(const Key& key);

/// A well-formed value as TOML: `"6.5 m"`, `2`, `["lug"]`.
std::string example_of(const Shape& shape);

std::string example_of(const Key& key);

/// The key's default as TOML where it is a fixed one, else empty: `"14.2 V"`, `true`.
std::string usual_value(const Key& key);

}  // namespace voltwright

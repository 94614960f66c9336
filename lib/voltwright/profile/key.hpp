#pragma once

#include "voltwright/profile/amount.hpp"
#include "voltwright/profile/entry.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/format.hpp"
#include "voltwright/profile/section_ref.hpp"
#include "voltwright/profile/shape.hpp"
#include "voltwright/tables/tables.hpp"

#include <array>
#include <cstddef>
#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

/// The key table: one row a profile key. From it come reading, "did you mean", the JSON Schema of the profile, `show`,
/// `new`, `--set` and the reference of keys. Nothing about a key is written twice.
namespace voltwright {

struct Profile;

/// Between two quantities of one dimension, or two counts. `above`: the lower bound itself is outside.
struct Range {
    Amount low, high;
    bool above = false;
};

/// The ranges of a key, at most one a dimension.
class Ranges {
public:
    static constexpr std::size_t most = 3;

    Ranges(std::initializer_list<Range> ranges);
    [[nodiscard]] const Range* begin() const { return ranges_.data(); }
    [[nodiscard]] const Range* end() const { return ranges_.data() + size_; }
    [[nodiscard]] std::size_t size() const { return size_; }
    [[nodiscard]] bool empty() const { return size_ == 0; }

private:
    std::array<Range, most> ranges_ = {};
    std::size_t size_ = 0;
};

/// The key has to be there.
struct Required {
    std::string_view example = {};  ///< as TOML, where the shape's own would not do: `"14 degC"`
    /// Whether its section does without it after all, for what else stands there; nullptr: never.
    bool (*waived)(SectionView section) = nullptr;
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
    std::string_view example = {};  ///< as TOML, where the usual one of its dimension would mislead
};
using Default = std::variant<Required, Absent, Usual, ByRule>;

class Key;

/// What can be done with a `Given<T>` whose type the row does not know: one for each type, `given_type<T>`.
struct GivenType {
    bool (*has_value)(const void* given);
    bool (*read)(const Entry& entry, const std::string& path, const Key& key, void* given, Faults& faults);
    std::string (*write)(const void* given);
    Shape (*shape)();
    void (*check)(const Key& key, const void* given, const std::string& path, Faults& faults);
    void (*complete)(void* given, const Profile& profile, const Tables& tables);
};

/// One key of one section, made by key<Member>().
class Key {
public:
    std::string_view name;
    Default fallback;
    Ranges ranges;
    std::string_view sentence;

    /// The member that it lands in, and what that is.
    const void* (*member)(SectionView section);
    const GivenType* type;
    /// What the value has to be beside its ranges; nullptr for most.
    void (*rule)(const void* given, const std::string& path, Faults& faults) = nullptr;
    /// Where one finds the value: "Ah, printed on the battery". Only of keys that a new profile leaves blank.
    std::string_view found = {};

    [[nodiscard]] bool required() const { return std::holds_alternative<Required>(fallback); }
    /// Needed, and not given, in a section that does not do without it.
    [[nodiscard]] bool lacking(SectionView section) const;
    [[nodiscard]] bool given(SectionView section) const { return type->has_value(member(section)); }
    [[nodiscard]] std::string written(SectionView section) const { return type->write(member(section)); }
    [[nodiscard]] Shape shape() const { return type->shape(); }

    /// Reads the entry into the section. What reads but is out of its range is a fault, and stands there all the same.
    void read(const Entry& entry, const std::string& path, SectionRef section, Faults& faults) const;
    /// Says what read() would say of a value that stands in the section already.
    void check(SectionView section, const std::string& path, Faults& faults) const;
    /// Fills in the defaults of the sections that stand inside the value.
    void complete_inside(SectionRef section, const Profile& profile, const Tables& tables) const;

private:
    [[nodiscard]] void* writable(SectionRef section) const { return const_cast<void*>(member(section)); }
};

/// The values that are outside the ranges of their key, or no number at all.
void check_ranges(const Checked& values, const std::string& path, const Key& key, Faults& faults);

/// "above 0 A, at most 500 A"; empty when a key has no ranges.
std::string show_ranges(const Key& key);

/// A well-formed value as TOML: `"6.5 m"`, `2`, `["lug"]`.
std::string example_of(const Shape& shape);
std::string example_of(const Key& key);

/// The key's default as TOML where it is a fixed one, else empty: `"14.2 V"`, `true`.
std::string usual_value(const Key& key);

/// The entry that such a default stands for.
Entry usual_entry(const Usual& usual);

// ---- making rows ----------------------------------------------------------------------------------------------------

namespace detail {

template <class T>
struct GivenOf {
    static const std::optional<T>& as_given(const void* given) { return *static_cast<const std::optional<T>*>(given); }

    static bool has_value(const void* given) { return as_given(given).has_value(); }
    static bool read(const Entry& entry, const std::string& path, const Key& key, void* given, Faults& faults) {
        T value{};
        if (!Format<T>::read(entry, path, value, faults)) return false;
        check_ranges(Format<T>::measures(value), path, key, faults);
        *static_cast<std::optional<T>*>(given) = std::move(value);
        return true;
    }
    static std::string write(const void* given) {
        const auto& value = as_given(given);
        return value ? Format<T>::write(*value) : std::string();
    }
    static void check(const Key& key, const void* given, const std::string& path, Faults& faults) {
        const auto& value = as_given(given);
        if (!value) return;
        check_ranges(Format<T>::measures(*value), path, key, faults);
        if constexpr (requires { Format<T>::check(*value, path, faults); }) Format<T>::check(*value, path, faults);
    }
    static void complete([[maybe_unused]] void* given, [[maybe_unused]] const Profile& profile,
                         [[maybe_unused]] const Tables& tables) {
        if constexpr (requires(T & value) { Format<T>::complete(value, profile, tables); })
            if (auto& value = *static_cast<std::optional<T>*>(given)) Format<T>::complete(*value, profile, tables);
    }
};

template <class T>
inline constexpr GivenType given_type = {&GivenOf<T>::has_value, &GivenOf<T>::read,  &GivenOf<T>::write,
                                         &Format<T>::shape,      &GivenOf<T>::check, &GivenOf<T>::complete};

template <auto Member>
struct MemberOf;
template <class Section, class T, std::optional<T> Section::*Member>
struct MemberOf<Member> {
    using Value = T;
    static const void* address(SectionView section) { return &(section.as<Section>().*Member); }
};

Key make_key(std::string_view name, const Default& fallback, const Ranges& ranges, std::string_view sentence,
             const void* (*member)(SectionView section), const GivenType* type);

}  // namespace detail

/// The row of a key that lands in a member such as `&TripKeys::low`.
template <auto Member>
Key key(std::string_view name, const Default& fallback, const Ranges& ranges, std::string_view sentence) {
    using M = detail::MemberOf<Member>;
    return detail::make_key(name, fallback, ranges, sentence, &M::address, &detail::given_type<typename M::Value>);
}

/// A row whose values have to keep a rule beside their ranges: `Rule(value, path, faults)`.
template <auto Member, auto Rule>
Key key_with_rule(std::string_view name, const Default& fallback, const Ranges& ranges, std::string_view sentence) {
    Key row = key<Member>(name, fallback, ranges, sentence);
    row.rule = [](const void* given, const std::string& path, Faults& faults) {
        Rule(*detail::GivenOf<typename detail::MemberOf<Member>::Value>::as_given(given), path, faults);
    };
    return row;
}

/// A row that a new profile leaves blank, and where one finds its value.
Key asked(const Key& row, std::string_view found);

// ---- sections of keys -----------------------------------------------------------------------------------------------

/// Checks what a section holds by its rows. What it lacks is told by missing_keys().
void check_section(std::span<const Key> keys, SectionView section, const std::string& path, Faults& faults);

/// The same of a section inside a value, and the keys that it needs and lacks.
void check_inner_section(std::span<const Key> keys, SectionView section, const std::string& path, Faults& faults);

/// The keys that are needed and not given.
void add_missing_keys(std::span<const Key> keys, SectionView section, const std::string& path, Faults& faults);

/// Fills in the defaults of a section's rows, each after those before it.
void complete_section(std::span<const Key> keys, SectionRef section, const Profile& profile, const Tables& tables,
                      std::size_t index);

/// `{ around = "25 degC", a_day = "22 Ah" }`
std::string write_inline(std::span<const Key> keys, SectionView section);

}  // namespace voltwright

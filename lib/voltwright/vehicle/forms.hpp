#pragma once

#include "voltwright/units/show.hpp"
#include "voltwright/vehicle/keys.hpp"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

/// How each kind of value is written in a profile: read from an entry, written back, and described.
namespace voltwright {

/// Reads `entry` into `value`, or adds a fault. `write` gives the text of a TOML value. `measures` lists the plain
/// quantities and counts in a value, for its ranges to be checked.
template <class T>
struct Form;

namespace detail {

inline void wrong_kind(const Entry& entry, const std::string& path, std::string_view wanted, Faults& faults) {
    faults.push_back({path, std::string(wanted) + " is wanted; this is " + std::string(kind_of(entry)), {}});
}

/// A quantity given as a bare number, or as something that is no text at all.
void no_quantity(const Entry& entry, const std::string& path, std::string_view wanted, std::string_view example,
                 Faults& faults);
void unreadable(const std::string& path, const Unreadable& reason, Faults& faults);
std::string quoted(std::string_view text);

}  // namespace detail

/// The plain quantities and counts of a value, each with its place in it: nothing, `[0]` or `[0].length`.
struct CheckedValue {
    std::variant<Measure, int> value;
    std::string at = {};
};
using Checked = std::vector<CheckedValue>;

template <class Q>
struct Form<Spread<Q>> {
    static bool read(const Entry& entry, const std::string& path, Spread<Q>& value, Faults& faults) {
        const std::string* text = entry.text();
        if (!text) {
            detail::no_quantity(entry, path, name_of(dimension<Q>()), example_of(dimension<Q>()), faults);
            return false;
        }
        const auto parsed = parse<Q>(*text);
        if (!parsed) {
            detail::unreadable(path, parsed.reason(), faults);
            return false;
        }
        value = *parsed;
        return true;
    }
    static std::string write(const Spread<Q>& value) { return detail::quoted(voltwright::write(value)); }
    static Checked measures(const Spread<Q>& value) { return {{Measure{value.value}}}; }
    static Shape shape() { return {Shape::Kind::quantity, name_of(dimension<Q>()), {dimension<Q>()}}; }
};

/// The words of an enumeration, in its order.
template <class E>
struct Words;
template <>
struct Words<Chemistry> {
    static constexpr std::array<std::string_view, 4> all = {"flooded", "agm", "gel", "lfp"};
};
template <>
struct Words<Alternator> {
    static constexpr std::array<std::string_view, 2> all = {"plain", "smart"};
};
template <>
struct Words<Wake> {
    static constexpr std::array<std::string_view, 2> all = {"voltage", "ignition"};
};
template <>
struct Words<Regulator> {
    static constexpr std::array<std::string_view, 2> all = {"mppt", "pwm"};
};
template <>
struct Words<AmpacityBasis> {
    static constexpr std::array<std::string_view, 2> all = {"us-33-cfr-183", "iso-13297"};
};
template <>
struct Words<Engine> {
    static constexpr std::array<std::string_view, 3> all = {"off", "idling", "driving"};
};
template <>
struct Words<ChargerSwitch> {
    static constexpr std::array<std::string_view, 2> all = {"on", "off"};
};
template <>
struct Words<Have> {
    static constexpr std::array<std::string_view, 3> all = {"cable", "fuse", "cable, fuse"};
};
template <>
struct Words<SizeSeries> {
    static constexpr std::array<std::string_view, 2> all = {"awg", "metric"};
};

template <class E>
concept HasWords = std::is_enum_v<E> && requires {
    Words<E>::all;
};

template <HasWords E>
std::string_view show(E value) {
    return Words<E>::all[static_cast<std::size_t>(value)];
}

namespace detail {
/// The index of `entry` among `words`, or a fault with the nearest.
std::optional<std::size_t> read_word(const Entry& entry, const std::string& path,
                                     std::span<const std::string_view> words, Faults& faults);
}  // namespace detail

template <HasWords E>
struct Form<E> {
    static bool read(const Entry& entry, const std::string& path, E& value, Faults& faults) {
        const auto index = detail::read_word(entry, path, Words<E>::all, faults);
        if (index) value = static_cast<E>(*index);
        return index.has_value();
    }
    static std::string write(const E& value) { return detail::quoted(show(value)); }
    static Checked measures(const E&) { return {}; }
    static Shape shape() { return {Shape::Kind::word, "a word", {}, {Words<E>::all.begin(), Words<E>::all.end()}}; }
};

#define VOLTWRIGHT_FORM(Type)                                                                       \
    template <>                                                                                     \
    struct Form<Type> {                                                                             \
        static bool read(const Entry& entry, const std::string& path, Type& value, Faults& faults); \
        static std::string write(const Type& value);                                                \
        static Checked measures(const Type& value);                                                 \
        static Shape shape();                                                                       \
    }

VOLTWRIGHT_FORM(int);
VOLTWRIGHT_FORM(bool);
VOLTWRIGHT_FORM(std::string);
VOLTWRIGHT_FORM(Gauge);
VOLTWRIGHT_FORM(Stud);
VOLTWRIGHT_FORM(ClockTime);
VOLTWRIGHT_FORM(std::vector<ClockWindow>);
VOLTWRIGHT_FORM(CalendarDate);
VOLTWRIGHT_FORM(TripDays);
VOLTWRIGHT_FORM(Somewhere);
VOLTWRIGHT_FORM(Way);
VOLTWRIGHT_FORM(ReturnPath);
VOLTWRIGHT_FORM(Insulation);
VOLTWRIGHT_FORM(std::vector<JointChoice>);
VOLTWRIGHT_FORM(std::vector<FuseChoice>);
VOLTWRIGHT_FORM(GivenFuses);
VOLTWRIGHT_FORM(SizesChoice);
VOLTWRIGHT_FORM(Draw);
VOLTWRIGHT_FORM(DailyUse);
VOLTWRIGHT_FORM(std::vector<std::string>);
VOLTWRIGHT_FORM(Accuracy<Voltage>);
VOLTWRIGHT_FORM(Accuracy<Current>);
VOLTWRIGHT_FORM(InrushKeys);
VOLTWRIGHT_FORM(std::vector<RatedKeys>);
VOLTWRIGHT_FORM(std::vector<RestockKeys>);

#undef VOLTWRIGHT_FORM

/// A part of a run's way as it is written, before both its keys are known to be there.
struct WaySectionKeys {
    std::optional<Somewhere> place;
    std::optional<Spread<Length>> length;
};

/// The rows of a section that stands inside another one's value.
template <class Section>
std::span<const Key> keys_of();
template <>
std::span<const Key> keys_of<WaySectionKeys>();
template <>
std::span<const Key> keys_of<InrushKeys>();
template <>
std::span<const Key> keys_of<RatedKeys>();
template <>
std::span<const Key> keys_of<RestockKeys>();

/// Reads the entries of a section by its rows: unknown keys, wrong values and missing required keys are faults.
void read_section(const Entry& entry, const std::string& path, std::span<const Key> keys, void* section,
                  Faults& faults);
/// `{ around = "25 degC", a_day = "22 Ah" }`
std::string write_inline(std::span<const Key> keys, const void* section);
void check_ranges(const Checked& values, const std::string& path, const Key& key, Faults& faults);

/// Checks the sections inside a value by their own rows; most values have none.
template <class T>
void check_inside(const T&, const std::string&, Faults&) {}
void check_inside(const Way& value, const std::string& path, Faults& faults);
void check_inside(const InrushKeys& value, const std::string& path, Faults& faults);
void check_inside(const std::vector<RatedKeys>& value, const std::string& path, Faults& faults);
void check_inside(const std::vector<RestockKeys>& value, const std::string& path, Faults& faults);

/// Checks what a section holds by its rows.
void check_section(std::span<const Key> keys, const void* section, const std::string& path, Faults& faults);

/// Makes a row from the member that it lands in.
template <auto Member>
struct Landing;
template <class Section, class T, std::optional<T> Section::*Member>
struct Landing<Member> {
    static bool given(const void* section) { return (static_cast<const Section*>(section)->*Member).has_value(); }
    static void read(const Entry& entry, const std::string& path, const Key& key, void* section, Faults& faults) {
        T value{};
        if (!Form<T>::read(entry, path, value, faults)) return;
        check_ranges(Form<T>::measures(value), path, key, faults);
        static_cast<Section*>(section)->*Member = std::move(value);
    }
    static std::string written(const void* section) {
        const auto& value = static_cast<const Section*>(section)->*Member;
        return value ? Form<T>::write(*value) : std::string();
    }
    static Shape shape() { return Form<T>::shape(); }
    static void check(const Key& key, const void* section, const std::string& path, Faults& faults) {
        const auto& value = static_cast<const Section*>(section)->*Member;
        if (!value) return;
        check_ranges(Form<T>::measures(*value), path, key, faults);
        check_inside(*value, path, faults);
    }
};

template <auto Member>
Key key(std::string_view name, Default fallback, std::vector<Range> ranges, std::string_view sentence) {
    using L = Landing<Member>;
    return {name, fallback, std::move(ranges), sentence, &L::given, &L::read, &L::written, &L::shape, &L::check};
}

}  // namespace voltwright

#include "voltwright/profile/key.hpp"

#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/show.hpp"

#include <stdexcept>

namespace voltwright {

// ---- rows -----------------------------------------------------------------------------------------------------------

Ranges::Ranges(std::initializer_list<Range> ranges) {
    for (const Range& range : ranges) ranges_.at(size_++) = range;
}

Key detail::make_key(std::string_view name, const Default& fallback, const Ranges& ranges, std::string_view sentence,
                     const void* (*member)(SectionView section), const GivenType* type) {
    return {name, fallback, ranges, sentence, member, type};
}

Key asked(const Key& row, std::string_view found) {
    Key result = row;
    result.found = found;
    return result;
}

// ---- values ---------------------------------------------------------------------------------------------------------

namespace {

/// What a rule says of the only element of a list that was written without its brackets is about the value itself.
void keep_rule(const Key& key, const void* given, const std::string& path, bool one_element, Faults& faults) {
    if (!key.rule) return;
    const std::size_t before = faults.size();
    key.rule(given, path, faults);
    const std::string only = path_to(path, std::size_t{0});
    for (std::size_t i = before; one_element && i < faults.size(); ++i)
        if (faults[i].path == only) faults[i].path = path;
}

}  // namespace

void Key::read(const Entry& entry, const std::string& path, SectionRef section, Faults& faults) const {
    const std::size_t before = faults.size();
    void* given = writable(section);
    if (type->read(entry, path, *this, given, faults) && faults.size() == before)
        keep_rule(*this, given, path, !entry.list(), faults);
}

void Key::check(SectionView section, const std::string& path, Faults& faults) const {
    const std::size_t before = faults.size();
    const void* given = member(section);
    type->check(*this, given, path, faults);
    if (type->has_value(given) && faults.size() == before) keep_rule(*this, given, path, false, faults);
}

void Key::complete_inside(SectionRef section, const Profile& profile, const Tables& tables) const {
    type->complete(writable(section), profile, tables);
}

namespace {

std::string show_range(const Range& range) {
    const std::string low = show(range.low), high = show(range.high);
    return range.above ? "above " + low + ", at most " + high : low + " to " + high;
}

/// Twice a voltage that would do: what a 24 V vehicle has in its place.
bool is_of_24_volts(const Range& range, const Amount& amount) {
    constexpr double least_of_a_system = 10.0;  // volts: a lower one is no system's
    return amount.dimension == Dimension::voltage && range.high.value >= least_of_a_system &&
           amount.value > range.high.value && range.low.value <= amount.value / 2.0 &&
           amount.value / 2.0 <= range.high.value;
}

}  // namespace

void check_ranges(const Checked& values, const std::string& path, const Key& key, Faults& faults) {
    for (const CheckedValue& checked : values)
        for (const Range& range : key.ranges) {
            const Amount& amount = checked.value;
            if (amount.dimension != range.low.dimension) continue;
            // What is no number is inside no range.
            const bool above = range.above ? range.low.value < amount.value : range.low.value <= amount.value;
            if (above && amount.value <= range.high.value) continue;
            if (is_of_24_volts(range, amount))
                faults.push_back(
                    {path + checked.at,
                     write(amount) + " is what a 24 V vehicle has, and only 12 V vehicles are planned here",
                     "for 12 V `" + std::string(key.name) + "` may be " + show_range(range)});
            else
                faults.push_back({path + checked.at,
                                  write(amount) + " is outside the range of `" + std::string(key.name) + "`",
                                  "it may be " + show_range(range)});
        }
}

// ---- sections of keys -----------------------------------------------------------------------------------------------

bool Key::lacking(SectionView section) const {
    const auto* needed = std::get_if<Required>(&fallback);
    return needed && !given(section) && !(needed->waived && needed->waived(section));
}

void check_section(std::span<const Key> keys, SectionView section, const std::string& path, Faults& faults) {
    for (const Key& key : keys) key.check(section, path_to(path, key.name), faults);
}

void check_inner_section(std::span<const Key> keys, SectionView section, const std::string& path, Faults& faults) {
    add_missing_keys(keys, section, path, faults);
    check_section(keys, section, path, faults);
}

void add_missing_keys(std::span<const Key> keys, SectionView section, const std::string& path, Faults& faults) {
    for (const Key& key : keys)
        if (key.lacking(section))
            faults.push_back({path_to(path, key.name), "`" + std::string(key.name) + "` is needed", {}});
}

namespace {

void fill_in(const Key& key, const Entry& value, SectionRef section) {
    // A table of the caller's own may bring a default beyond our ranges; only one that cannot be read is our fault.
    Faults faults;
    key.read(value, std::string(key.name), section, faults);
    if (!key.given(section)) throw std::logic_error("the default of " + std::string(key.name) + " cannot be read");
}

}  // namespace

void complete_section(std::span<const Key> keys, SectionRef section, const Profile& profile, const Tables& tables,
                      std::size_t index) {
    for (const Key& key : keys) {
        if (key.given(section)) {
            key.complete_inside(section, profile, tables);
        } else if (const auto* usual = std::get_if<Usual>(&key.fallback)) {
            fill_in(key, usual_entry(*usual), section);
        } else if (const auto* rule = std::get_if<ByRule>(&key.fallback)) {
            if (const auto value = rule->value(profile, tables, index)) fill_in(key, *value, section);
        }
    }
}

std::string write_inline(std::span<const Key> keys, SectionView section) {
    std::string text;
    for (const Key& key : keys)
        if (key.given(section))
            text += (text.empty() ? " " : ", ") + std::string(key.name) + " = " + key.written(section);
    return "{" + text + " }";
}

// ---- in words -------------------------------------------------------------------------------------------------------

std::string show_ranges(const Key& key) {
    std::string text;
    for (const Range& range : key.ranges) text += (text.empty() ? "" : "; ") + show_range(range);
    return text;
}

std::string example_of(const Shape& shape) {
    if (!shape.example.empty()) return std::string(shape.example);
    switch (shape.kind) {
        case Shape::Kind::quantity: return formats::toml_quoted(example_of(shape.dimensions.at(0)));
        case Shape::Kind::gauge: return "\"8 AWG\"";
        case Shape::Kind::stud: return "\"M8\"";
        case Shape::Kind::whole: return "2";
        case Shape::Kind::flag: return "true";
        case Shape::Kind::text: return "\"name\"";
        case Shape::Kind::word: return formats::toml_quoted(shape.words.at(0));
        case Shape::Kind::date: return "2026-09-14";
        case Shape::Kind::clock: return "\"18:30\"";
        case Shape::Kind::window: return "\"18:30-22:00\"";
        case Shape::Kind::days: return "\"2-4\"";
        case Shape::Kind::list: return "[" + example_of(shape.parts.at(0)) + "]";
        case Shape::Kind::one_or_list:
            return shape.parts.at(0).kind == Shape::Kind::section ? "[" + example_of(shape.parts.at(0)) + "]"
                                                                  : example_of(shape.parts.at(0));
        case Shape::Kind::any_of: return example_of(shape.parts.at(0));
        case Shape::Kind::named: return "{ starter = " + example_of(shape.parts.at(0)) + " }";
        case Shape::Kind::section: {
            std::string words;
            for (const Key& key : shape.keys)
                words += (words.empty() ? " " : ", ") + std::string(key.name) + " = " + example_of(key);
            return "{" + words + " }";
        }
    }
    return {};
}

std::string example_of(const Key& key) {
    if (const auto* required = std::get_if<Required>(&key.fallback); required && !required->example.empty())
        return std::string(required->example);
    if (const auto* absent = std::get_if<Absent>(&key.fallback); absent && !absent->example.empty())
        return std::string(absent->example);
    if (const auto* rule = std::get_if<ByRule>(&key.fallback); rule && !rule->example.empty())
        return std::string(rule->example);
    const std::string usual = usual_value(key);
    return usual.empty() ? example_of(key.shape()) : usual;
}

std::string usual_value(const Key& key) {
    const auto* usual = std::get_if<Usual>(&key.fallback);
    if (!usual) return {};
    if (const auto* words = std::get_if<std::string_view>(&usual->written)) return formats::toml_quoted(*words);
    if (const auto* number = std::get_if<int>(&usual->written)) return std::to_string(*number);
    return std::get<bool>(usual->written) ? "true" : "false";
}

Entry usual_entry(const Usual& usual) {
    Entry entry;
    if (const auto* words = std::get_if<std::string_view>(&usual.written)) entry.content = std::string(*words);
    if (const auto* number = std::get_if<int>(&usual.written)) entry.content = std::int64_t{*number};
    if (const auto* truth = std::get_if<bool>(&usual.written)) entry.content = *truth;
    return entry;
}

}  // namespace voltwright

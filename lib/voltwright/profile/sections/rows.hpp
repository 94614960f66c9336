#pragma once

#include "voltwright/profile/section.hpp"
#include "voltwright/tables/tables.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

/// What the rows of several sections are made of.
namespace voltwright::rows {

// ---- ranges ---------------------------------------------------------------------------------------------------------
// Generous: what lies outside is a slip of the pen, not an unusual vehicle.

template <class Q>
Range between(Q low, Q high);
/// Above nothing.
template <class Q>
Range up_to(Q high);
Range counts(int low, int high);

Range outside_air();
Range surroundings();
Range share();
Range efficiency();
Range cut();
Range fuse_rating();
Range stud_diameter();
Range joint_resistance();

// ---- defaults -------------------------------------------------------------------------------------------------------

Usual usual(const char* written);
Usual usual(int number);
Usual usual(bool truth);

/// A value that was worked out, without the last digits of the arithmetic.
Entry rounded(double number, std::string_view unit);

/// A text that is known when the program is built.
template <std::size_t Size>
struct FixedText {
    char letters[Size] = {};
    constexpr FixedText(const char (&text)[Size]) { std::copy_n(text, Size, letters); }
    [[nodiscard]] constexpr std::string_view view() const { return {letters, Size - 1}; }
};

/// Whether the engine's computer lowers the alternator's voltage.
bool smart_alternator(const Profile& profile);

/// One value for a plain alternator, another for one that a computer holds low.
template <FixedText Plain, FixedText Smart>
ByRule by_alternator() {
    static const std::string words =
        std::string(Plain.view()) + ", " + std::string(Smart.view()) + " with a smart alternator";
    return {words, [](const Profile& profile, const Tables&, std::size_t) {
                return std::optional(text_entry(smart_alternator(profile) ? Smart.view() : Plain.view()));
            }};
}

/// The row of the house battery's chemistry, or nullptr while it is not known.
const ChemistryRow* chemistry_of(const Profile& profile, const Tables& tables);

Entry written_amount(Voltage value);
Entry written_amount(Ratio value);

/// What the table of chemistries says of the house battery.
template <auto Column>
ByRule by_chemistry() {
    return {"by chemistry", [](const Profile& profile, const Tables& tables, std::size_t) -> std::optional<Entry> {
                const ChemistryRow* row = chemistry_of(profile, tables);
                if (!row) return {};
                return written_amount(row->*Column);
            }};
}

// ---- rules ----------------------------------------------------------------------------------------------------------

/// Drives, unlike the hours of a load, stay within their day, and nobody drives twice at once.
void check_drives(const std::optional<std::vector<ClockWindow>>& drives, const std::string& path, Faults& faults);

}  // namespace voltwright::rows

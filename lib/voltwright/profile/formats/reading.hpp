#pragma once

#include "voltwright/profile/format.hpp"
#include "voltwright/units/read.hpp"

#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What the formats of a profile's values share: faults in one wording, lists, words and shapes.
namespace voltwright::formats {

/// A text as TOML writes it: in double quotes, with what cannot stand there escaped.
std::string toml_quoted(std::string_view text);

/// `["a", "b"]` of values that are TOML already.
std::string list_of(std::span<const std::string> written);

/// Somebody meant a quantity, rather than a name.
bool begins_with_number(std::string_view text);

/// `"cable", "body" or "frame"`
std::string alternatives(std::span<const std::string_view> words);

// ---- faults ---------------------------------------------------------------------------------------------------------

/// Adds a fault; always false.
bool fail(Faults& faults, const std::string& path, std::string what, std::string hint = {});

/// "a whole number is wanted; this is a text"
void wrong_kind(const Entry& entry, const std::string& path, std::string_view wanted, Faults& faults);

/// A quantity given as a bare number, or as something that is no text at all.
void no_quantity(const Entry& entry, const std::string& path, std::string_view wanted, std::string_view example,
                 Faults& faults);
void unreadable(const std::string& path, const Unreadable& reason, Faults& faults);

// ---- entries --------------------------------------------------------------------------------------------------------

/// The text of an entry; else a fault and nullptr.
const std::string* text_or_fault(const Entry& entry, const std::string& path, std::string_view wanted,
                                 std::string_view example, Faults& faults);

/// Calls with each element of a list and its path; an entry that is no list stands for its only element. False when one
/// call was.
bool each_element(const Entry& entry, const std::string& path, Faults& faults,
                  const std::function<bool(const Entry& element, const std::string& path)>& visit);

// ---- shapes ---------------------------------------------------------------------------------------------------------

Shape quantity_shape(Dimension dimension);
Shape with_parts(Shape::Kind kind, std::string_view says, std::vector<Shape> parts);
Shape with_words(std::string_view says, std::vector<std::string_view> words);

}  // namespace voltwright::formats

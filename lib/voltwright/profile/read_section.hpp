#pragma once

#include "voltwright/profile/key.hpp"
#include "voltwright/profile/section_ref.hpp"

#include <span>
#include <string>
#include <string_view>

namespace voltwright {

/// Reads the entries of a section by its rows: unknown keys, wrong values, empty texts and missing required keys are
/// faults.
void read_section(const Entry& entry, const std::string& path, std::span<const Key> keys, SectionRef section,
                  Faults& faults);

/// Reads one of them, or says that it is not filled in. `section` is the entry that it stands in.
void read_key(const Key& key, const Entry& value, const std::string& path, const Entry& section_entry,
              SectionRef section, Faults& faults);

/// Says that a key is not known; answers what was probably meant.
std::string_view unknown_key(const std::string& path, std::string_view name, std::span<const Key> keys, Faults& faults);

}  // namespace voltwright

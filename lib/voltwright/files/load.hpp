#pragma once

#include "voltwright/files/document.hpp"
#include "voltwright/profile/profile.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/result.hpp"
#include "voltwright/vehicle/system.hpp"

#include <span>
#include <string>

/// From a profile's text to a vehicle that can be planned, in one call.
namespace voltwright {

/// A profile ready to be planned.
struct LoadedSystem {
    Document document;  ///< its text and tree, with what was overridden: for locate()
    Profile given;      ///< as written, with what was overridden
    System system;      ///< what it describes: for make_plan()
};

/// Reads a profile, applies the overrides in their order, reads the keys and resolves them.
///
/// path       a TOML file; `-` is standard input
/// overrides  `key=value` each, as the program's `--set` has them: `trip.days=12`, `run.feed.length=6 m`; set() tells what a
///            key may be, read_override_value() what a value
/// tables     what names are looked up in; the tables have to outlive the system
///
/// All that is wrong is told at once, in the order of the file: what cannot be read, and what does not fit together as far as
/// that does not merely follow from it. A wrong override is told before the file is looked at further. Never throws for what
/// stands in a file. May be called from several threads at once.
Result<LoadedSystem, Diagnostics> load_system(const std::string& path, std::span<const std::string> overrides = {},
                                              const Tables& tables = built_in_tables());

/// The same of a document that has been read.
Result<LoadedSystem, Diagnostics> load_system(Document document, std::span<const std::string> overrides = {},
                                              const Tables& tables = built_in_tables());

/// The same of a text. `name` is what messages call it.
Result<LoadedSystem, Diagnostics> load_system_text(std::string name, std::string text,
                                                   std::span<const std::string> overrides = {},
                                                   const Tables& tables = built_in_tables());

}  // namespace voltwright

#pragma once

#include "cli/verb.hpp"
#include "voltwright/files/document.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/vehicle/profile.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>
#include <span>
#include <string>

namespace voltwright::cli {

/// A profile ready to be planned.
struct OpenProfile {
    Document document;
    Profile given;  ///< as written, with what `--set` changed
    System system;  ///< what it describes
};

/// Reads PROFILE, applies each `--set` in order, reads the keys and resolves them. What is wrong goes to standard error,
/// and there is nothing: the verb then ends with `unusable`.
std::optional<OpenProfile> open_profile(const Call& call);

/// The same for another file and other settings.
std::optional<OpenProfile> open_profile(const Call& call, const std::string& path, std::span<const std::string> sets);

/// Says on standard error what is wrong with the profile, each fault at its place. Answers `unusable`.
int refuse(const Call& call, const Document& document, const Faults& faults);
int refuse(const Call& call, const Diagnostics& diagnostics);

}  // namespace voltwright::cli

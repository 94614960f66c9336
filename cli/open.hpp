#pragma once

#include "cli/verb.hpp"
#include "voltwright/files/document.hpp"
#include "voltwright/profile/profile.hpp"
#include "voltwright/tables/tables.hpp"
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

/// The same of a text that was read, with other settings.
std::optional<OpenProfile> open_profile(const Call& call, Document document, std::span<const std::string> sets);

/// The text at a path, or nothing: what is wrong then stands on standard error.
std::optional<Document> open_document(const Call& call, const std::string& path);

/// Says on standard error what is wrong with the profile, each fault at its place. Answers `unusable`.
int refuse(const Call& call, const Document& document, const Faults& faults);
int refuse(const Call& call, const Diagnostics& diagnostics);

}  // namespace voltwright::cli

#pragma once

#include "cli/verb.hpp"
#include "voltwright/files/load.hpp"

#include <optional>
#include <span>
#include <string>

namespace voltwright::cli {

/// A profile ready to be planned.
using OpenProfile = LoadedSystem;

/// Reads PROFILE, applies each `--set` in order, reads the keys and resolves them. What is wrong goes to standard error,
/// and there is nothing: the verb then ends with `unusable`.
std::optional<OpenProfile> open_profile(const Call& call);

/// The same of a text that was read, with other settings.
std::optional<OpenProfile> open_profile(const Call& call, Document document, std::span<const std::string> sets);

/// The text at a path, or nothing: what is wrong then stands on standard error.
std::optional<Document> open_document(const Call& call, const std::string& path);

/// Says on standard error what is wrong, each fault at its place. Answers `unusable`.
int refuse(const Call& call, const Diagnostics& diagnostics);

}  // namespace voltwright::cli

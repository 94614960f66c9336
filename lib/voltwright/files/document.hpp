#pragma once

#include "voltwright/profile/entry.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/units/result.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// One thing that is wrong with a file, and where.
struct Diagnostic {
    std::string file;  ///< as the user named it; `standard input` for `-`
    TextPlace place;       ///< line 0 when it concerns the file as a whole
    std::string line;  ///< that line of the text, without its end; empty when there is none
    std::string what;
    std::string hint;
    std::string said;  ///< the `--set` that it came from, when it came from one
};
using Diagnostics = std::vector<Diagnostic>;

/// A profile's text and the tree that was read from it.
struct Document {
    std::string name;
    std::string text;
    Entry root;
};

/// Reads TOML. Refuses, each with one diagnostic: what is no regular file (unless `-`), more than 1 MiB, a line of more
/// than 4,000 bytes, what is not UTF-8, and every syntax error (the parser stops at the first). A quantity that was
/// written without quotes is explained.
Result<Document, Diagnostics> read_document(const std::string& path);
Result<Document, Diagnostics> read_document_text(std::string name, std::string text);

/// The value of `--set key=value`: a TOML value where it is one (`12`, `true`, `["a", "b"]`, `{ … }`, `"6 m"`), else the
/// text as it stands (`9 m`).
Entry read_override_value(std::string_view text);

/// Puts the faults of a document where they stand in its text, in the order of the file.
Diagnostics locate(const Document& document, const Faults& faults);

/// Writes a file beside `path` and renames it over it: either the new text stands there whole, or the old.
/// Answers what went wrong, if anything did.
std::optional<std::string> write_whole(const std::string& path, std::string_view text);

/// Whether a file stands as write_whole() left it, not touched since. It bears an extended attribute; a file system without
/// them answers no.
bool stands_as_written(const std::string& path);

}  // namespace voltwright

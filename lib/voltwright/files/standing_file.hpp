#pragma once

#include <cstddef>
#include <string>
#include <string_view>

/// What already stands where an answer is to be written.
namespace voltwright {

/// Whether two paths lead to one regular file, by device and inode, as one file may have many names. `read` may be a
/// dash: standard input. A device has nothing to lose and is never the same.
bool leads_to_what_is_read(const std::string& path, const std::string& read);

/// As much of a file as there is, up to so many bytes; nothing when it cannot be read.
std::string beginning_of(const std::string& path, std::size_t most);

/// Whether writing this text would take somebody's words away: a regular file stands there, not as write_whole() left it,
/// with something else in it. A directory is refused on writing.
bool holds_other_words(const std::string& path, std::string_view text);

}  // namespace voltwright

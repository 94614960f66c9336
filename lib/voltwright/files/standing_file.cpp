#include "voltwright/files/standing_file.hpp"

#include "voltwright/files/document.hpp"

#include <cerrno>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace voltwright {

bool leads_to_what_is_read(const std::string& path, const std::string& read) {
    struct stat there = {}, source = {};
    if (::stat(path.c_str(), &there) != 0 || !S_ISREG(there.st_mode)) return false;
    const int found = read == "-" ? ::fstat(STDIN_FILENO, &source) : ::stat(read.c_str(), &source);
    return found == 0 && source.st_dev == there.st_dev && source.st_ino == there.st_ino;
}

std::string beginning_of(const std::string& path, std::size_t most) {
    std::string bytes(most, '\0');
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (file < 0) return {};
    std::size_t filled = 0;
    while (filled < most) {
        const ssize_t got = ::read(file, bytes.data() + filled, most - filled);
        if (got < 0 && errno == EINTR) continue;
        if (got <= 0) break;
        filled += static_cast<std::size_t>(got);
    }
    ::close(file);
    bytes.resize(filled);
    return bytes;
}

bool holds_other_words(const std::string& path, std::string_view text) {
    struct stat there = {};
    if (::stat(path.c_str(), &there) != 0 || !S_ISREG(there.st_mode) || there.st_size == 0) return false;
    if (stands_as_written(path)) return false;
    return beginning_of(path, text.size() + 1) != text;  // the same once more
}

}  // namespace voltwright

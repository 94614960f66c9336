#include "cli/verb.hpp"

#include "voltwright/files/document.hpp"

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <utility>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace voltwright::cli {

namespace {

/// 0, or the error. A reader who has seen enough is none.
int write_all(int file, std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(file, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return errno == EPIPE ? 0 : errno;
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    return 0;
}

/// What is read, by the name under which it was said, and what it is.
constexpr std::pair<std::string_view, std::string_view> read_files[] = {
    {"PROFILE", "the profile"}, {"OTHER", "the other profile"}, {"--prices", "the price list"}};

/// What stands behind a name that was given, standard input behind a dash.
bool find_file(const std::string& path, struct stat& found) {
    return (path == "-" ? ::fstat(STDIN_FILENO, &found) : ::stat(path.c_str(), &found)) == 0;
}

/// As much of a file as there is, up to so many bytes; nothing when it cannot be read.
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

/// Whether somebody else's words would go. A device has nothing to lose; a directory is refused on writing.
bool is_of_others(const std::string& path, std::string_view page, const Verb* verb) {
    struct stat there = {};
    if (::stat(path.c_str(), &there) != 0 || !S_ISREG(there.st_mode) || there.st_size == 0) return false;
    if (stands_as_written(path)) return false;
    if (verb && verb->is_own && verb->is_own(beginning_of(path, 512))) return false;
    return beginning_of(path, page.size() + 1) != page;  // the same once more
}

}  // namespace

std::span<const std::string> Call::all(std::string_view name) const {
    for (const auto& [option, values] : said)
        if (option == name) return values;
    return {};
}

std::string Call::text(std::string_view name, std::string_view otherwise) const {
    const std::span<const std::string> values = all(name);
    return values.empty() ? std::string(otherwise) : values.back();
}

long Call::number(std::string_view name, long otherwise) const {
    const std::span<const std::string> values = all(name);
    return values.empty() ? otherwise : std::strtol(values.back().c_str(), nullptr, 10);
}

std::string Call::would_be_lost() const {
    const std::string path = text("-o", "-");
    struct stat there = {}, read = {};
    // A device has nothing to lose. By device and inode, as one file may have many names.
    if (path == "-" || ::stat(path.c_str(), &there) != 0 || !S_ISREG(there.st_mode)) return {};
    for (const auto& [name, what] : read_files)
        if (given(name) && find_file(text(name), read) && read.st_dev == there.st_dev && read.st_ino == there.st_ino)
            return path + " is " + std::string(what) + " itself and was left as it is; choose another name";
    return {};
}

int Call::answer(std::string_view page, int code) const {
    const std::string path = text("-o", "-");
    if (path != "-") {
        if (!given("--force") && is_of_others(path, page, verb))
            return complain(path +
                            " is there already, is not as voltwright wrote it, and was left as it is; choose another "
                            "name, or say --force");
        const std::string trouble = write_whole(path, page);
        return trouble.empty() ? code : complain(path + ": " + trouble);
    }
    const int error = write_all(STDOUT_FILENO, page);
    return error == 0 ? code : complain(std::string("the answer cannot be written: ") + std::strerror(error));
}

int Call::say(std::string_view words, int code) const {
    const int error = write_all(STDOUT_FILENO, printable(spelled(words, style), style) + "\n");
    return error == 0 ? code : complain(std::string("the answer cannot be written: ") + std::strerror(error));
}

int Call::complain(std::string_view words, int code) const {
    write_all(STDERR_FILENO, "voltwright: " + printable(spelled(words, error_style), error_style) + "\n");
    return code;
}

}  // namespace voltwright::cli

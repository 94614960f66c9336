#include "voltwright/files/document.hpp"

#include <array>
#include <cerrno>
#include <climits>
#include <cstdlib>
#include <cstring>
#include <memory>

#include <fcntl.h>
#include <sys/stat.h>
#include <sys/xattr.h>
#include <unistd.h>

namespace voltwright {

namespace {

std::string cannot_be_written(int error) {
    switch (error) {
        case ENOENT: return "there is no such directory";
        case ENOTDIR: return "a part of this path is no directory";
        case EISDIR: return "this is a directory";
        case EACCES:
        case EPERM: return "you have no permission to write here";
        case EROFS: return "this place can only be read";
        case ENOSPC:
        case EDQUOT: return "there is no room left on the disk";
        case ENAMETOOLONG: return "this name is too long for a file";
        case ELOOP: return "this link leads in a circle";
        case EFBIG: return "this is too large for a file here";
        default: return "this cannot be written: " + std::string(std::strerror(error));
    }
}

/// 0, or the error.
int write_all(int file, std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(file, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return errno;
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    return 0;
}

/// A device or a pipe has nothing to keep, and a file must not take its place.
std::optional<std::string> write_through(const std::string& path, std::string_view text) {
    const int file = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
    if (file < 0) return cannot_be_written(errno);
    int error = write_all(file, text);
    if (::close(file) != 0 && error == 0) error = errno;
    if (error != 0) return cannot_be_written(error);
    return {};
}

/// Where a link leads, or the path as it is when nothing stands there yet.
std::string followed(const std::string& path) {
    const std::unique_ptr<char, decltype(&std::free)> real(::realpath(path.c_str(), nullptr), &std::free);
    return real ? std::string(real.get()) : path;
}

constexpr const char* mark = "user.voltwright.written";

/// What the mark says of a file: when it was last written, and how long it is. A copy or a change has another time.
std::string mark_of(const struct stat& about) {
    return std::to_string(about.st_mtim.tv_sec) + "." + std::to_string(about.st_mtim.tv_nsec) + " " +
           std::to_string(about.st_size);
}

/// Where a file system keeps no marks the file is only not known as ours later.
void leave_mark(int file) {
    struct stat about = {};
    if (::fstat(file, &about) != 0) return;
    const std::string words = mark_of(about);
    static_cast<void>(::fsetxattr(file, mark, words.data(), words.size(), 0) == 0);
}

/// A new file beside the one that it will take the place of.
struct FileBeside {
    int file = -1;
    std::string path = {};
};

/// -1 with errno where there can be none.
FileBeside open_beside(const std::string& folder) {
    FileBeside beside;
    for (int attempt = 0; beside.file < 0 && attempt < 100; ++attempt) {
        beside.path = folder + "/.voltwright-" + std::to_string(::getpid()) + "-" + std::to_string(attempt);
        beside.file = ::open(beside.path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (beside.file < 0 && errno != EEXIST) break;
    }
    return beside;
}

std::string folder_of(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    return slash == std::string::npos ? "." : slash == 0 ? "/" : path.substr(0, slash);
}

/// Owner and rights of the file before; another owner's keeps its owner where we may say so. 0, or the error.
int keep_owner_and_rights(int file, const struct stat& old) {
    if (old.st_uid != ::geteuid() || old.st_gid != ::getegid())
        static_cast<void>(::fchown(file, old.st_uid, old.st_gid) == 0);
    return ::fchmod(file, old.st_mode & 07777) == 0 ? 0 : errno;
}

/// 0, or the error. The file is closed either way.
int fill(int file, std::string_view text) {
    int error = write_all(file, text);
    if (error == 0) leave_mark(file);
    if (error == 0 && ::fsync(file) != 0 && errno != EINVAL) error = errno;
    if (::close(file) != 0 && error == 0) error = errno;
    return error;
}

/// The new name, too, is to outlast a loss of power; the text already stands, so a refusal here is no error.
void keep_name(const std::string& folder) {
    const int directory = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (directory < 0) return;
    static_cast<void>(::fsync(directory) == 0);
    ::close(directory);
}

/// Puts a new file into the place of `target`; `old` is what stands there, or nullptr.
std::optional<std::string> replace(const std::string& target, const struct stat* old, std::string_view text) {
    const std::string folder = folder_of(target);
    const FileBeside beside = open_beside(folder);
    if (beside.file < 0) return cannot_be_written(errno);
    int error = old ? keep_owner_and_rights(beside.file, *old) : 0;
    if (error == 0)
        error = fill(beside.file, text);
    else
        ::close(beside.file);
    if (error == 0 && ::rename(beside.path.c_str(), target.c_str()) != 0) error = errno;
    if (error != 0) {
        ::unlink(beside.path.c_str());
        return cannot_be_written(error);
    }
    keep_name(folder);
    return {};
}

}  // namespace

bool stands_as_written(const std::string& path) {
    struct stat about = {};
    std::array<char, 64> words = {};
    if (::stat(path.c_str(), &about) != 0) return false;
    const ssize_t length = ::getxattr(path.c_str(), mark, words.data(), words.size());
    return length > 0 && std::string_view(words.data(), static_cast<std::size_t>(length)) == mark_of(about);
}

std::optional<std::string> write_whole(const std::string& path, std::string_view text) {
    struct stat old = {};
    const bool stands = ::stat(path.c_str(), &old) == 0;
    if (!stands && errno != ENOENT) return cannot_be_written(errno);
    if (path.empty() || path.back() == '/' || (stands && S_ISDIR(old.st_mode)))
        return cannot_be_written(stands || path.empty() ? EISDIR : ENOENT);
    if (stands && !S_ISREG(old.st_mode)) return write_through(path, text);
    // What the owner has locked stays, although the directory would let a new file take its place.
    if (stands && ::access(path.c_str(), W_OK) != 0) return cannot_be_written(errno);

    return replace(stands ? followed(path) : path, stands ? &old : nullptr, text);
}

}  // namespace voltwright
